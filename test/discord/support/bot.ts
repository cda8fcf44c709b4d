import { type Discord, startDiscord } from "../../../src/channels/discord/start-discord.ts";
import type { Attend } from "../../../src/channels/discord/voice/ports.ts";
import { createBenches } from "../../../src/conversation/benches.ts";
import { openBench } from "../../../src/open-bench.ts";
import { systemClock } from "../../../src/platform/clock.ts";
import { Secret } from "../../../src/platform/secret.ts";
import { withFolder } from "../../support/child.ts";
import { createFakeClock, type FakeClock } from "../../support/fake-clock.ts";
import { type StandIn, startStandIn } from "../stand-in/start.ts";

export const TOKEN = "an-invented-token.for-tests";

/** The service's network is this much quicker than the real one. */
const PACE = 0.02;

/** Real ms between two sessions' beginnings, at that pace. */
const SPACING = 5000 * PACE;

/** How far the clock moves at once, ms. */
const STEP = 500;

/** The program on one data folder, as main wires it. */
export type Bot = {
  readonly discord: Discord;
  /** What it told whoever runs it. */
  readonly notes: readonly string[];
  stop(): Promise<void>;
};

export type BotOptions = {
  /** Holds every write of a bench up until it resolves. */
  readonly slow?: () => Promise<void>;
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
  { slow, unconnected: _, attend, patience, ...sharding }: BotOptions = {},
): Promise<Bot> {
  const house = await openBench({ data, zone: "Europe/Lisbon" });
  const store: typeof house.store =
    slow === undefined
      ? house.store
      : {
          load: (id) => house.store.load(id),
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
  const discord = await startDiscord({
    settings: { token: new Secret(TOKEN), api: standIn.apiUrl, ...sharding },
    data,
    zone: "Europe/Lisbon",
    commands: house.commands,
    store,
    benches,
    clock,
    attend,
    patience,
    note: (sentence) => void notes.push(sentence),
    pace: { edit: 20, identify: SPACING },
  });
  return {
    discord,
    notes,
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

/** A stand-in, a clock and a data folder for the length of a test. */
export async function withScene(
  play: (scene: Scene) => Promise<void>,
  { real = false }: { readonly real?: boolean } = {},
): Promise<void> {
  await withFolder(async (data) => {
    const clock = real ? realTime() : createFakeClock();
    const standIn = await startStandIn({ clock, pace: PACE });
    const bots: Bot[] = [];
    try {
      await play({
        standIn,
        clock,
        data,
        async start(options) {
          // A program that is started again takes longer than the service wants between two sessions.
          const last = standIn.identifies.at(-1)?.at ?? Number.NEGATIVE_INFINITY;
          await standIn.until(() => performance.now() - last > SPACING, "the time to identify");
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
