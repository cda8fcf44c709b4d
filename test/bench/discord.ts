import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { MessageFlags } from "discord-api-types/v10";
import {
  type DirectoryRecord,
  newPlace,
  recordSchema as placeRecordSchema,
} from "../../src/channels/discord/directory/record.ts";
import { keyOf } from "../../src/channels/discord/rooms/rooms.ts";
import type { Command } from "../../src/commands/define-command.ts";
import { loadCommands } from "../../src/commands/registry.ts";
import { type BenchRecord, newRecord, recordSchema } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { overStage } from "../../src/domain/session/advance.ts";
import { allCues } from "../../src/domain/timing/cues.ts";
import { type Instant, instant, later } from "../../src/domain/units/quantity.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { migrate } from "../../src/store/migrations/migrate.ts";
import type { Person } from "../discord/stand-in/people/person.ts";
import { type StandIn, startStandIn } from "../discord/stand-in/start.ts";
import { withFolder } from "../support/child.ts";
import { type Program, startProgram } from "../support/program.ts";
import { percentile } from "./percentile.ts";

export type DiscordFigures = {
  readonly benches: number;
  readonly runs: number;
  /** From a message on the socket to the request that answers it, ms, over the loopback. */
  readonly reply: { readonly p50: number; readonly p99: number };
  /** From the instant a cue is due to the request that posts it, ms. */
  readonly cue: { readonly cues: number; readonly p50: number; readonly p99: number };
  /** Of the process with all benches open, MB of 10^6 bytes. */
  readonly resident: number | undefined;
  /** From the socket that is back to the first cue posted, ms. */
  readonly reconnect: number;
};

const TOKEN = "an-invented-token.for-benches";
const GUILDS = 10;
const MEMBERS = 40;
/** From one answer to the next question, ms: with the cues of all runs less than fifty requests a second. */
const APART = 60;
/** Cues are measured over so long, ms. */
const LISTEN = 25_000;

const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

async function until(is: () => boolean, ms = 120_000): Promise<void> {
  const end = performance.now() + ms;
  while (!is()) {
    if (performance.now() > end) throw new Error("the bench waits for ever");
    await pause(5);
  }
}

export type Club = {
  readonly guild: string;
  readonly owner: string;
  readonly people: readonly Person[];
  readonly channels: readonly string[];
};

export function foundClubs(standIn: StandIn, benches: number): readonly Club[] {
  return Array.from({ length: GUILDS }, (_, at) => {
    const names = Array.from({ length: benches / GUILDS }, (__, n) => `bench-${at}-${n}`);
    const owner = `Owner ${at}`;
    const members = at === 0 ? Array.from({ length: MEMBERS }, (__, n) => `Member ${n}`) : [];
    const guild = standIn.guild({
      name: `Club ${at}`,
      channels: names.map((name) => ({
        name,
        overwrites: [
          { for: "@everyone", deny: ["ViewChannel"] },
          { for: "bot", allow: ["ViewChannel", "SendMessages", "ReadMessageHistory"] },
        ],
      })),
      members: [{ name: owner, owner: true }, ...members],
    });
    return {
      guild: guild.id,
      owner: guild.member(owner).id,
      people: members.map((name) => guild.member(name)),
      channels: names.map((name) => guild.channel(name).id),
    };
  });
}

/** A bench with a run in its bath, agitated every half minute, begun at `at`. */
function benchWithRun(
  key: string,
  at: Instant,
  commands: readonly Command[],
  time: string,
): BenchRecord {
  let record = newRecord(key, "Europe/Lisbon");
  for (const text of [`start developer for ${time} tank north`, "ready", "in"]) {
    record = turn(record, { text, who: "Owner" }, at, commands).record;
  }
  return record;
}

/** Writes the data folder that the program then opens. @returns when cues are due, by channel */
export async function furnish(
  data: string,
  clubs: readonly Club[],
  runs: number,
  at: Instant,
  time = "59 minutes",
): Promise<ReadonlyMap<string, readonly number[]>> {
  const commands = await loadCommands();
  const due = new Map<string, readonly number[]>();
  const store = await openFileStore<BenchRecord>({ directory: data, schema: recordSchema });
  const directory = await openFileStore<DirectoryRecord>({
    directory: join(data, "discord"),
    schema: placeRecordSchema,
    migrate: (record) => migrate(record, []),
  });
  let count = 0;
  for (const { guild, owner, people, channels } of clubs) {
    for (const channel of channels) {
      const key = keyOf(channel);
      // Spread over the half minute between two beats, as those of 500 people are.
      const from = instant(at - 60_000 - Math.round((count * 30_000) / runs));
      const record =
        count < runs ? benchWithRun(key, from, commands, time) : newRecord(key, "Europe/Lisbon");
      count += 1;
      const run = Object.values(record.bench.runs)[0];
      if (run !== undefined)
        due.set(
          channel,
          allCues(run, overStage).map((cue) => cue.at),
        );
      await store.load(key);
      await store.commit(key, undefined, record, { durable: false });
      const members = channel === channels[0] ? people : [];
      const place = {
        ...newPlace({ guild, channel, channelName: "bench", openedBy: owner }),
        owners: run === undefined ? {} : { [run.id]: owner },
        members: Object.fromEntries(
          [{ id: owner, name: "Owner" }, ...members].map(({ id, name }) => [
            id,
            { name, listed: true, reminders: "channel" as const },
          ]),
        ),
      };
      await directory.load(key);
      await directory.commit(key, undefined, place, { durable: false });
    }
  }
  await directory.close();
  await store.close();
  return due;
}

export const isPost = ({ method, route }: StandIn["requests"][number]): boolean =>
  method === "POST" && route === "/channels/:channel/messages";

/** A cue told on time: no live message, which is silent, and no list of what was missed. */
export const isCue = (one: StandIn["requests"][number]): boolean => {
  const body = one.body as { readonly flags?: number; readonly content?: string } | undefined;
  const silent = ((body?.flags ?? 0) & MessageFlags.SuppressNotifications) !== 0;
  return isPost(one) && !silent && /^North: /.test(body?.content ?? "");
};

export const channelOf = ({ path }: StandIn["requests"][number]): string =>
  /\/channels\/(\d+)\//.exec(path)?.[1] ?? "";

/** Several people write directly; how long until the answer is asked for. */
async function measureReplies(standIn: StandIn, people: readonly Person[]) {
  const took: number[] = [];
  for (let round = 0; round < 8; round += 1) {
    for (const person of people) {
      await pause(APART);
      const channel = person.direct.id;
      const known = standIn.requests.length;
      const sent = performance.now();
      person.dm("how much water for 500 ml at 1+9");
      const answer = () =>
        standIn.requests.slice(known).find((one) => isPost(one) && channelOf(one) === channel);
      await until(() => answer() !== undefined);
      // The first times a person is looked up and code is warmed.
      if (round >= 2) took.push((answer()?.arrived ?? 0) - sent);
    }
  }
  return { p50: percentile(took, 50), p99: percentile(took, 99) };
}

async function measureCues(standIn: StandIn, due: ReadonlyMap<string, readonly number[]>) {
  const wall = Date.now() - performance.now();
  const known = standIn.requests.length;
  const from = Date.now();
  await pause(LISTEN);
  const late = standIn.requests.slice(known).flatMap((one) => {
    const arrived = one.arrived + wall;
    const at = due.get(channelOf(one))?.findLast((instant) => instant <= arrived + 1);
    return isCue(one) && at !== undefined && at >= from ? [arrived - at] : [];
  });
  if (late.length === 0) throw new Error("no cue was posted");
  return { cues: late.length, p50: percentile(late, 50), p99: percentile(late, 99) };
}

async function measureReconnect(standIn: StandIn): Promise<number> {
  await standIn.socket.down();
  await pause(3000);
  const known = standIn.requests.length;
  await standIn.socket.up();
  await until(() => standIn.socket.count() > 0);
  const back = performance.now();
  const first = () => standIn.requests.slice(known).find(isPost);
  await until(() => first() !== undefined);
  return Math.max(0, (first()?.arrived ?? 0) - back);
}

async function residentOf({ pid }: Program): Promise<number | undefined> {
  const status = await readFile(`/proc/${pid}/status`, "utf8").catch(() => "");
  const kibibytes = /^VmRSS:\s+(\d+) kB$/m.exec(status)?.[1];
  return kibibytes === undefined ? undefined : (Number(kibibytes) * 1024) / 1e6;
}

/** The program itself, with a thousand benches and five hundred runs, against the stand-in. */
export const benchDiscord = (benches = 1000, runs = 500): Promise<DiscordFigures> =>
  withFolder(async (data) => {
    // Real pace of limits: fifty requests a second, as the service allows.
    const standIn = await startStandIn({ pace: 0.05 });
    const app = standIn.application({ token: TOKEN });
    const clubs = foundClubs(standIn, benches);
    const at = later(instant(Date.now()), 20);
    const due = await furnish(data, clubs, runs, at);
    const program = await startProgram(
      [],
      "start",
      {
        DISCORD_TOKEN: TOKEN,
        DISCORD_API: standIn.apiUrl,
        WETSIDE_DATA: data,
      },
      600_000,
    );
    try {
      await until(() => standIn.socket.count() > 0 && app.registrations.length > 0);
      // What was missed while it started, and the live messages, are out first.
      await until(() => standIn.requests.filter(isPost).length >= runs);
      await pause(15_000);
      const cue = await measureCues(standIn, due);
      const reply = await measureReplies(standIn, clubs[0]?.people ?? []);
      const resident = await residentOf(program);
      const reconnect = await measureReconnect(standIn);
      return { benches, runs, reply, cue, resident, reconnect };
    } finally {
      await program.terminate();
      await standIn.close();
    }
  });
