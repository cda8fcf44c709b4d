import { isDeepStrictEqual } from "node:util";
import { beforeAll, expect, test } from "vitest";
import type { BenchRecord } from "../../src/conversation/record.ts";
import { MemoryDisk } from "../support/memory-disk.ts";
import { seeded } from "../support/seeded.ts";
import {
  cueOf,
  keeperOn,
  type Lived,
  liveShortSession,
  type Step,
  type Told,
  take,
} from "../support/short-session.ts";

/** The disk just before one of its operations, as a kill or a power cut there would leave it. */
type CutShort = {
  readonly where: string;
  readonly killed: MemoryDisk;
  readonly cuts: readonly MemoryDisk[];
  /** Steps whose answer was given by then; the one after them was under way. */
  readonly acknowledged: number;
  readonly told: readonly Told[];
};

const CUTS_OF_EACH = 6;
/** Every so many operations the session is also lived to its end. */
const TO_THE_END = 4;

let whole: Lived;
const moments: CutShort[] = [];

beforeAll(async () => {
  const disk = new MemoryDisk();
  let acknowledged = 0;
  let told: readonly Told[] = [];
  disk.fault = ({ name }) => {
    if (name === "read" || name === "list") return undefined;
    const number = moments.length;
    moments.push({
      where: `before operation ${number}, ${acknowledged} acknowledged`,
      killed: disk.afterKill(),
      cuts: Array.from({ length: CUTS_OF_EACH }, (_, seed) =>
        disk.afterPowerCut(seeded(number * 10 + seed)),
      ),
      acknowledged,
      told,
    });
    return undefined;
  };
  whole = await liveShortSession(disk, {
    tells: (more) => {
      told = [...told, ...more];
    },
    done: () => {
      acknowledged += 1;
    },
  });
});

/** A value as a file holds it: what is undefined is not there. */
const asStored = (value: unknown): unknown => JSON.parse(JSON.stringify(value ?? null));

/** How far a record found on a disk has come: it must be one that once stood there. */
function reached(found: BenchRecord, upTo: number): number {
  const plain = asStored(found);
  for (let at = upTo; at >= 0; at -= 1) {
    if (isDeepStrictEqual(plain, asStored(whole.records[at]))) return at;
  }
  return -1;
}

/** What may be lost: that a cue was told, which is then told again, and talk that changed nothing. */
function mayBeLost(steps: readonly Step[], from: number): boolean {
  return steps.every((step, at) => {
    const [before, after] = [whole.records[from + at]?.bench, whole.records[from + at + 1]?.bench];
    if (step.kind === "said") return isDeepStrictEqual(asStored(before), asStored(after));
    return isDeepStrictEqual(withoutMarks(before), withoutMarks(after));
  });
}

const withoutMarks = (bench: BenchRecord["bench"] | undefined): unknown => {
  const runs = Object.values(bench?.runs ?? {}).map(({ cuedUntil: _, ...run }) => run);
  return asStored({ ...bench, runs });
};

/** Goes on from a disk to the end of the session: it must end as if nothing had happened. */
async function goOn(
  disk: MemoryDisk,
  from: number,
  restart: Step,
  where: string,
): Promise<readonly Told[]> {
  const { keeper } = await keeperOn(disk);
  const told: Told[] = [];
  const due = keeper.nextDue();
  if (due !== undefined && due <= restart.at) {
    told.push(...(await take(keeper, { kind: "due", at: restart.at })));
  }
  for (const step of whole.steps.slice(from)) {
    const next = keeper.nextDue();
    if (step.kind === "due" && (next === undefined || next > step.at)) continue;
    told.push(...(await take(keeper, step)));
  }
  expect(asStored(keeper.record.bench), where).toEqual(asStored(whole.records.at(-1)?.bench));
  return told;
}

const countCues = (told: readonly Told[]): Map<string, number> => {
  const counts = new Map<string, number>();
  for (const one of told) {
    const cue = cueOf(one);
    if (cue !== undefined) counts.set(cue, (counts.get(cue) ?? 0) + 1);
  }
  return counts;
};

test("the session is long enough to prove something", () => {
  expect(moments.length).toBeGreaterThan(150);
  const used = Object.values(whole.records.at(-1)?.bench.bottles ?? {}).map(({ used }) => used);
  expect(used).toEqual([2, 2]);
  expect(countCues(whole.told.flat()).size).toBeGreaterThan(10);
});

test("killed at any single write, the session goes on and ends as if nothing had happened", async () => {
  const cues = countCues(whole.told.flat());
  for (const [number, { where, killed, acknowledged, told }] of moments.entries()) {
    const { keeper } = await keeperOn(killed.afterKill());
    const at = reached(keeper.record, acknowledged + 1);
    expect(at, where).toBeGreaterThanOrEqual(acknowledged);
    const step = whole.steps[acknowledged];
    if (number % TO_THE_END !== 0 || step === undefined) continue;
    const heard = countCues([...told, ...(await goOn(killed, at, step, where))]);
    for (const [cue, times] of cues) {
      // Told and not yet marked as told: once more, rather than never.
      expect(heard.get(cue), `${where}: ${cue}`).toBeGreaterThanOrEqual(times);
      expect(heard.get(cue), `${where}: ${cue}`).toBeLessThanOrEqual(times + 1);
    }
  }
}, 60_000);

test("after a power cut at any single write nothing is missing but marks of cues told", async () => {
  for (const [number, { where, cuts, acknowledged }] of moments.entries()) {
    for (const [seed, disk] of cuts.entries()) {
      const here = `${where}, cut ${seed}`;
      const { keeper, notices } = await keeperOn(disk.afterKill());
      expect(notices.join(" "), here).not.toContain("missing");
      const at = reached(keeper.record, acknowledged + 1);
      expect(at, here).toBeGreaterThanOrEqual(0);
      if (at < acknowledged) {
        expect(mayBeLost(whole.steps.slice(at, acknowledged), at), here).toBe(true);
        continue;
      }
      const step = whole.steps[acknowledged];
      if (seed === 0 && number % TO_THE_END === 2 && step !== undefined) {
        await goOn(disk, at, step, here);
      }
    }
  }
}, 60_000);
