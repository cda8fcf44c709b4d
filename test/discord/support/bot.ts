import { type Discord, startDiscord } from "../../../src/channels/discord/start-discord.ts";
import type { Attend } from "../../../src/channels/discord/voice/ports.ts";
import { createBenches } from "../../../src/conversation/benches.ts";
import type { BenchRecord } from "../../../src/conversation/record.ts";
import type { Level } from "../../../src/log/log.ts";
import { HOME, openBench } from "../../../src/open-bench.ts";
import { systemClock } from "../../../src/platform/clock.ts";
import type { FileSystem } from "../../../src/platform/file-system.ts";
import { Secret } from "../../../src/platform/secret.ts";
import { withFolder } from "../../support/child.ts";
import { createFakeClock, type FakeClock } from "../../support/fake-clock.ts";
import { type StandIn, startStandIn } from "../stand-in/start.ts";

export const TOKEN = "an-invented-token.for-tests";

/** The service's network is this much quicker than the real one. */
const PACE = 0.02;

/** On a busy machine what was sent apart may arrive closer together. */
const SLACK = 3;
/** How far the clock moves at once, ms. */
const STEP = 500;

/** The program on one data folder, as main wires it. */
export type Bot = {
  readonly discord: Discord;
  /** What it told whoever runs it. */
  readonly notes: readonly string[];
  /** The same of one level; `notes` are those that are shown where nothing else is set. */
  notesAt(level: Level): readonly string[];
  /** What is stored of the first bench that is open in Discord. */
  record(): Promise<BenchRecord>;
  stop(): Promise<void>;
};

export type BotOptions = {
  /** Holds every write of a bench up until it resolves. */
  readonly slow?: () => Promise<void>;
  /** What all of it is kept on, in the place of the machine's disk. */
  readonly disk?: FileSystem;
  /** It is not waited for that it is connected. */
  readonly unconnected?: boolean;
  /** What listens and speaks in calls; without it there is no voice. */
  readonly attend?: Attend;
  /** How long a voice server has to answer, real ms. */
  readonly patience?: number;
  readonly shards?: readonly number[];
  readonly shardCount?: number;
};

async function startBot(
  standIn: StandIn,
  data: string,
  clock: FakeClock,
  { slow, disk, unconnected: _, attend, patience, ...sharding }: BotOptions = {},
): Promise<Bot> {
  const house = await openBench({
    data,
    zone: "Europe/Lisbon",
    ...(disk === undefined ? {} : { disk }),
  });
  const store: typeof house.store =
    slow === undefined
      ? house.store
      : {
          load: (id) => house.store.load(id),
          rewrite: (...given) => house.store.rewrite(...given),
          archive: (id, name, record) => house.store.archive(id, name, record),
          recall: (id, name) => house.store.recall(id, name),
          list: () => house.store.list(),
          close: () => house.store.close(),
          async commit(...given) {
            await slow();
            await house.store.commit(...given);
          },
        };
  const benches = createBenches({ clock });
  const notes: string[] = [];
  const told: { readonly sentence: string; readonly level: Level }[] = [];
  const discord = await startDiscord({
    settings: { token: new Secret(TOKEN), api: standIn.apiUrl, ...sharding },
    data,
    disk,
    zone: "Europe/Lisbon",
    commands: house.commands,
    store,
    benches,
    clock,
    attend,
    patience,
    note(sentence, level = "info") {
      told.push({ sentence, level });
      if (level !== "debug") notes.push(sentence);
    },
    pace: { edit: 20, identify: 5000 * PACE * SLACK },
  });
  return {
    discord,
    notes,
    notesAt: (level) => told.filter((one) => one.level === level).map(({ sentence }) => sentence),
    async record() {
      const id = (await house.store.list()).find((one) => one !== HOME);
      const { value } = await house.store.load(id ?? "");
      if (value === undefined) throw new Error("No bench is open in Discord");
      return value;
    },
    async stop() {
      await discord.close();
      benches.stop();
      await house.close();
    },
  };
}

export type Scene = {
  readonly standIn: StandIn;
  readonly clock: FakeClock;
  readonly data: string;
  start(options?: BotOptions): Promise<Bot>;
  /** Time goes by, in seconds, a little at a time, with the traffic of each moment. */
  pass(seconds: number): Promise<void>;
};

/** A clock that tells the real time, for what looks at it from another process. */
const realTime = (): FakeClock => ({
  ...createFakeClock(),
  wall: systemClock.wall,
  monotonic: systemClock.monotonic,
  uptime: systemClock.uptime,
});

/** The same stand-in, quiet only when the bots have nothing under way either, as on a slow disk. */
function settling(standIn: StandIn, bots: readonly Bot[]): StandIn {
  const settled = async (): Promise<void> => {
    await standIn.settled();
    for (const bot of bots) await bot.discord.idle();
    await standIn.settled();
  };
  return Object.assign(Object.create(standIn) as StandIn, { settled });
}

/** A stand-in, a clock and a data folder for the length of a test. */
export async function withScene(
  play: (scene: Scene) => Promise<void>,
  { real = false }: { readonly real?: boolean } = {},
): Promise<void> {
  await withFolder(async (data) => {
    const clock = real ? realTime() : createFakeClock();
    const bots: Bot[] = [];
    const standIn = settling(await startStandIn({ clock, pace: PACE }), bots);
    try {
      await play({
        standIn,
        clock,
        data,
        async start(options) {
          const bot = await startBot(standIn, data, clock, options);
          bots.push(bot);
          if (options?.unconnected !== true) await bot.discord.connected;
          await standIn.settled();
          return bot;
        },
        async pass(seconds) {
          // What falls due at one moment is out before the next: the network is real, the clock is not.
          for (let left = seconds * 1000; left > 0; left -= STEP) {
            await clock.pass(Math.min(STEP, left));
            for (const bot of bots) await bot.discord.idle();
          }
          await standIn.settled();
        },
      });
    } finally {
      for (const bot of bots) await bot.stop();
      await standIn.close();
    }
  });
}

/** Waits in real time for what the network or a pace of its own holds up, for so long at most. */
export async function eventually(is: () => boolean, turns = 400): Promise<void> {
  for (let turn = 0; turn < turns && !is(); turn += 1) {
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}
