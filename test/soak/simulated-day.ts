import { join } from "node:path";
import { picturesIn } from "../../src/channels/console/pictures.ts";
import { loadCommands } from "../../src/commands/registry.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import { type Bell, createBenches } from "../../src/conversation/benches.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { instant } from "../../src/domain/units/quantity.ts";
import { filesIn } from "../../src/export/files.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { withFolder } from "../support/child.ts";
import { eveningScript } from "../support/evening-script.ts";
import { createFakeClock } from "../support/fake-clock.ts";
import { chatter, evening } from "./evening.ts";
import { createReader, type Reading } from "./sampler.ts";
import type { Point } from "./trend.ts";

export type SimulatedDay = {
  readonly benches: number;
  readonly evenings: number;
  readonly mostAtOnce: number;
  readonly said: number;
  readonly cues: number;
  /** In moved time. */
  readonly readings: readonly Reading[];
  /** How late one telling in so many was by the moved clock: its instant and ms. */
  readonly late: readonly Point[];
  /** Of all tellings, ms. */
  readonly latest: number;
  readonly early: number;
  readonly faults: readonly string[];
};

const START = Date.UTC(2026, 9, 24, 12);
const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
/** A bench lives an evening this often; so that 25 of them live 200 in a day. */
const CYCLE = 3 * HOUR;
const BENCHES = 25;
/** So many begin their evenings together. */
const TOGETHER = 5;
/** Readings are counted after the first cycle and some more, when all benches are at work. */
const WARM = 4 * HOUR;
const READ_EVERY = 10 * MINUTE;
/** One telling in so many is kept, for how lateness goes over the day. */
const ONE_IN = 20;

type Act = { readonly at: number; readonly bench: number; readonly line: string };

/** One evening of every bench in every cycle, and chatter in between. */
function actsOf(hours: number): Act[] {
  const acts: Act[] = [];
  for (let bench = 0; bench < BENCHES; bench += 1) {
    const offset = Math.floor(bench / TOGETHER) * (CYCLE / (BENCHES / TOGETHER));
    for (let begin = offset; begin < hours * HOUR; begin += CYCLE) {
      let at = begin;
      for (const line of evening) {
        at += typeof line === "number" ? line * 1000 : 1000;
        if (typeof line === "string") acts.push({ at, bench, line });
      }
      for (let turn = 1; turn < 14; turn += 1) {
        const line = chatter[turn % chatter.length] ?? "left";
        acts.push({ at: at + turn * 10 * MINUTE, bench, line });
      }
    }
  }
  // One bench more passes through every command there is, over and over.
  let at = 0;
  for (let turn = 0; at < hours * HOUR; turn += 1) {
    const line = eveningScript[turn % eveningScript.length] ?? "";
    at += line.startsWith("@") ? Number(line.slice(1)) * 1000 : 4000;
    if (!line.startsWith("@")) acts.push({ at, bench: BENCHES, line });
    if (turn % eveningScript.length === eveningScript.length - 1) {
      at += HOUR;
      acts.push({ at, bench: BENCHES, line: "forget the whole bench" });
      acts.push({ at: at + 1000, bench: BENCHES, line: "forget this whole bench for good" });
    }
  }
  return acts.filter((act) => act.at < hours * HOUR).sort((a, b) => a.at - b.at);
}

/**
 * A day on many benches by a clock that is moved from one thing that happens to the next, with a
 * real store, real pictures and real archives.
 */
export const soakSimulated = (hours: number): Promise<SimulatedDay> =>
  withFolder(async (data) => {
    const commands = await loadCommands();
    const store = await openFileStore<BenchRecord>({ directory: data, schema: recordSchema });
    const clock = createFakeClock(instant(START));
    let housekeep = (): void => undefined;
    const benches = createBenches({
      clock,
      housekeep(look) {
        housekeep = look;
        return () => undefined;
      },
    });
    /** When each bench's next cue ought to be told: once it is due, and not before it is known. */
    const due = new Map<number, number>();
    const known = new Map<number, number>();
    // Few are kept: what is read here is to be the growth of the program, not of its witness.
    const late: Point[] = [];
    let latest = 0;
    let early = 0;
    let tellings = 0;
    const faults: string[] = [];
    let cues = 0;
    const members: { keeper: BenchKeeper; bell: Bell; pictures: ReturnType<typeof picturesIn> }[] =
      [];
    for (let id = 0; id <= BENCHES; id += 1) {
      const key = `bench-${id}`;
      const folder = join(data, "own", key);
      const place = { zone: "Europe/Lisbon" };
      const { keeper } = await BenchKeeper.open(key, place, store, commands, filesIn(folder));
      const bell = benches.join(key, {
        keeper,
        tell(replies) {
          const at = due.get(id);
          // A reminder may wait until a run leaves hands free: that is no lateness.
          const told = replies.filter(({ facts }) => facts.cue !== undefined).length;
          cues += told;
          if (at === undefined || told === 0) return;
          const value = benches.now() - at;
          latest = Math.max(latest, value);
          if (value < 0) early += 1;
          if (tellings % ONE_IN === 0) late.push({ at, value });
          tellings += 1;
        },
        onFault: (error) => void faults.push(String(error)),
      });
      members.push({ keeper, bell, pictures: picturesIn(folder) });
    }
    const idle = async (): Promise<void> => {
      for (const { keeper } of members) await keeper.idle();
      await clock.pass(0);
    };
    const expect = (id: number, keeper: BenchKeeper): number | undefined => {
      const at = keeper.nextDue();
      if (at === undefined) due.delete(id);
      else due.set(id, Math.max(at, known.get(id) ?? START));
      return at;
    };
    const read = createReader();
    const readings: Reading[] = [];
    const acts = actsOf(hours);
    let evenings = 0;
    let mostAtOnce = 0;
    let said = 0;
    let look = MINUTE;
    let reading = READ_EVERY;
    let next = 0;
    while (clock.elapsed() < hours * HOUR) {
      let until = Math.min(look, reading, acts[next]?.at ?? Number.POSITIVE_INFINITY);
      for (const [id, { keeper }] of members.entries()) {
        const at = expect(id, keeper);
        if (at !== undefined) until = Math.min(until, at - START);
      }
      // What is due falls due at its own instant, before anything else happens.
      await clock.pass(Math.max(1, until - clock.elapsed()));
      await idle();
      for (let act = acts[next]; act !== undefined && act.at <= clock.elapsed(); act = acts[next]) {
        next += 1;
        const member = members[act.bench];
        if (member === undefined) continue;
        said += 1;
        if (act.line.startsWith("start saltmarsh")) evenings += 1;
        // What an undo brings back may have been due long ago: nobody could tell it before now.
        const before = member.keeper.nextDue();
        // And what it brings back is told with its answer, before it can be expected.
        due.delete(act.bench);
        const message = { text: act.line, who: "Ines", standing: "owner" as const };
        const reply = await member.bell.take(message).catch((error: unknown) => {
          faults.push(`${act.line}: ${error}`);
          return undefined;
        });
        if (member.keeper.nextDue() !== before) known.set(act.bench, benches.now());
        expect(act.bench, member.keeper);
        if (reply !== undefined) await member.pictures.drawn(reply);
      }
      const open = members.reduce(
        (sum, { keeper }) => sum + (keeper.nextCue() === undefined ? 0 : 1),
        0,
      );
      mostAtOnce = Math.max(mostAtOnce, open);
      if (clock.elapsed() >= look) {
        look += MINUTE;
        housekeep();
        await idle();
      }
      if (clock.elapsed() >= reading) {
        reading += READ_EVERY;
        const now = { ...read(), at: START + clock.elapsed() };
        if (clock.elapsed() > Math.min(WARM, (hours * HOUR) / 4)) readings.push(now);
      }
    }
    benches.stop();
    await idle();
    await store.close();
    const benchesAtAll = BENCHES + 1;
    return {
      benches: benchesAtAll,
      evenings,
      mostAtOnce,
      said,
      cues,
      readings,
      late,
      latest,
      early,
      faults,
    };
  });
