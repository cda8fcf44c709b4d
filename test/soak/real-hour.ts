import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { instant, later } from "../../src/domain/units/quantity.ts";
import { channelOf, foundClubs, furnish, isCue, isPost } from "../bench/discord.ts";
import { percentile } from "../bench/percentile.ts";
import { type StandIn, startStandIn } from "../discord/stand-in/start.ts";
import { withFolder } from "../support/child.ts";
import { startProgram } from "../support/program.ts";
import { chatter, evening } from "./evening.ts";
import { EVERY, READINGS, type Reading, WARM } from "./sampler.ts";

export type Lateness = {
  /** Unix ms, the middle of a stretch. */
  readonly at: number;
  readonly cues: number;
  /** From the instant a cue is due to the request that posts it, ms. */
  readonly p50: number;
  readonly p99: number;
};

export type RealTime = {
  readonly benches: number;
  readonly said: number;
  /** Evenings that did not end with everything forgotten. */
  readonly unforgotten: number;
  /** Sentences that nobody answered within the patience of a person. */
  readonly unanswered: number;
  readonly readings: readonly Reading[];
  readonly late: readonly Lateness[];
  /** Cues that were due and were not posted. */
  readonly lost: number;
  /** Cues posted before they were due, or twice. */
  readonly wrong: number;
  readonly violations: readonly string[];
  readonly complaint: string;
};

const TOKEN = "an-invented-token.for-soaking";
/** Of four benches one lives short evenings; the others have one long run. */
const SHORT = 4;
/** Somebody somewhere says something beside a long run, this often, ms. */
const CHATTER = 800;
/** The first reading counts after everything is open and warm, as a part of all the time. */
const WARMING = 0.2;
/** So often a sentence is said again before an evening goes on without it. */
const PATIENCE = 20;
/** Between two sentences of one evening, ms: a person's budget is shared by their benches. */
const BREATH = 4000;

const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

async function until(is: () => boolean): Promise<void> {
  for (let turn = 0; turn < 24_000 && !is(); turn += 1) await pause(5);
  if (!is()) throw new Error("the soak waits for ever");
}

/** What was not told in time comes in one message that says how much it is. */
const MISSED = /^(?:\W*)(?:This cue was|These (\d+) cues were) not told in time/m;

/** How many cues a message stands for. */
function cuesIn(one: StandIn["requests"][number]): number {
  if (isCue(one)) return 1;
  const { content = "" } = (one.body ?? {}) as { readonly content?: string };
  const missed = isPost(one) ? MISSED.exec(content) : null;
  return missed === null ? 0 : Number(missed[1] ?? 1);
}

/**
 * What was posted in a channel, in order, against what was due there: each cue is the first that
 * has not been told yet.
 */
function match(
  requests: StandIn["requests"],
  due: ReadonlyMap<string, readonly number[]>,
  wall: number,
  [from, to]: readonly [number, number],
) {
  const late: { readonly at: number; readonly ms: number }[] = [];
  let lost = 0;
  let wrong = 0;
  for (const [channel, all] of due) {
    const waiting = all.filter((at) => at > from && at <= to);
    for (const one of requests) {
      if (channelOf(one) !== channel) continue;
      const arrived = one.arrived + wall;
      for (let cue = cuesIn(one); cue > 0; cue -= 1) {
        const at = waiting[0];
        // The clock of the process and the one here are read apart: a ms of grace.
        if (at === undefined || arrived < at - 1) {
          // Told just after the beginning or the end, and due before or after.
          if (arrived > from + 2000 && arrived < to) wrong += 1;
          continue;
        }
        waiting.shift();
        late.push({ at, ms: arrived - at });
      }
    }
    lost += waiting.length;
  }
  return { late, lost, wrong };
}

function stretches(late: ReturnType<typeof match>["late"], from: number, each: number) {
  const groups = Map.groupBy(late, ({ at }) => Math.floor((at - from) / each));
  return [...groups].flatMap(([group, all]): Lateness[] => {
    const took = all.map(({ ms }) => ms);
    return group < 0
      ? []
      : [
          {
            at: from + (group + 0.5) * each,
            cues: all.length,
            p50: percentile(took, 50),
            p99: percentile(took, 99),
          },
        ];
  });
}

/**
 * The program itself, against the stand-in for Discord, in real time: a run on each of so many
 * benches, most of them long, some in short evenings over and over, and chatter on all.
 */
export const soakRealTime = (minutes: number, benches: number): Promise<RealTime> =>
  withFolder(async (folder) => {
    const data = join(folder, "data");
    const written = join(folder, "readings.jsonl");
    const standIn = await startStandIn({ pace: 0.05 });
    const app = standIn.application({ token: TOKEN });
    const clubs = foundClubs(standIn, benches);
    const long = benches - Math.floor(benches / SHORT);
    const at = later(instant(Date.now()), 20);
    const due = await furnish(data, clubs, long, at, "9 hours");
    const lasts = minutes * 60_000;
    const program = await startProgram(
      [],
      "start",
      {
        DISCORD_TOKEN: TOKEN,
        DISCORD_API: standIn.apiUrl,
        WETSIDE_DATA: data,
        NODE_OPTIONS: `--import=${join(import.meta.dirname, "sampler.ts")}`,
        [READINGS]: written,
        [EVERY]: String(Math.max(2, (minutes * 60) / 120)),
        [WARM]: String(minutes * 60 * WARMING),
      },
      lasts + 600_000,
    );
    let over = false;
    let said = 0;
    let unforgotten = 0;
    let unanswered = 0;
    const say = (owner: string, channel: string, sentence: string) => {
      said += 1;
      return standIn
        .member(owner)
        .slash("say", { channel: { id: channel }, options: { sentence } });
    };
    /** As a person does: who is asked for a few seconds gives them, and says it again. */
    const sayUntilHeard = async (owner: string, channel: string, line: string): Promise<string> => {
      let answered = "";
      for (let attempt = 0; attempt < PATIENCE && !over; attempt += 1) {
        // A machine that is busy with other things may keep somebody waiting: no reason to end.
        const answer = await say(owner, channel, line)
          .answer()
          .catch(() => undefined);
        if (answer === undefined) unanswered += 1;
        answered = answer?.content ?? "";
        await pause(BREATH);
        if (!answered.startsWith("That is more than I can follow")) break;
      }
      return answered;
    };
    const live = async (owner: string, channel: string, after: number): Promise<void> => {
      await pause(after);
      while (!over) {
        let answered = "";
        for (const line of evening) {
          if (over) return;
          if (typeof line === "string") answered = await sayUntilHeard(owner, channel, line);
          else await pause(line * 1000);
        }
        // What an evening leaves behind would be taken for a leak.
        if (!over && !answered.includes("This bench is forgotten")) unforgotten += 1;
      }
    };
    const talk = async (): Promise<void> => {
      for (let turn = 0; !over; turn += 1) {
        const club = clubs[turn % clubs.length];
        const channel = club?.channels[Math.floor(turn / clubs.length) % club.channels.length];
        if (club !== undefined && channel !== undefined && due.has(channel)) {
          say(club.owner, channel, chatter[turn % chatter.length] ?? "left");
        }
        await pause(CHATTER);
      }
    };
    try {
      await until(() => standIn.socket.count() > 0 && app.registrations.length > 0);
      await until(() => standIn.requests.filter(isPost).length >= long);
      await pause(5000);
      const wall = Date.now() - performance.now();
      const from = Date.now();
      const first = standIn.requests.length;
      const short = clubs.flatMap(({ owner, channels }) =>
        channels.filter((channel) => !due.has(channel)).map((channel) => ({ owner, channel })),
      );
      const spread = Math.min(lasts / 4, 240_000) / Math.max(1, short.length);
      const living = short.map(({ owner, channel }, n) => live(owner, channel, n * spread));
      const talking = talk();
      await pause(lasts);
      over = true;
      const to = Date.now();
      // What was due just now is still on its way.
      await pause(2000);
      const posts = standIn.requests.slice(first).filter(isPost);
      const { late, lost, wrong } = match(posts, due, wall, [from, to - 1000]);
      await Promise.all([...living, talking]);
      const text = await readFile(written, "utf8");
      const readings = text
        .split("\n")
        .filter((line) => line !== "")
        .map((line) => JSON.parse(line) as Reading);
      const warm = from + lasts * WARMING;
      return {
        benches,
        said,
        unforgotten,
        unanswered,
        readings: readings.filter((one) => one.at >= warm && one.at <= to),
        late: stretches(
          late.filter((one) => one.at >= warm),
          from,
          Math.max(5000, lasts / 60),
        ),
        lost,
        wrong,
        violations: [
          ...new Set(standIn.violations.map(({ kind, detail }) => `${kind}: ${detail}`)),
        ],
        complaint: program.complaint(),
      };
    } finally {
      over = true;
      await program.terminate();
      await standIn.close();
    }
  });
