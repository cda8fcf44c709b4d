import { describe, expect, test } from "vitest";
import { logOf } from "../../src/commands/diagnosis-log.ts";
import { faultTables, noteRules, troubleRules } from "../../src/data/faults.ts";
import { rescues, troubleWords } from "../../src/data/rescues.ts";
import { wholeRun } from "../../src/domain/faults/whole-run.ts";
import type { Bench } from "../../src/domain/session/bench.ts";
import { celsius, instant, later, millilitres, seconds } from "../../src/domain/units/quantity.ts";
import { bottleOf } from "../support/bottles.ts";
import { benchAfter, type Trouble } from "../support/fault-bench.ts";
import { at, evening, runOf, stageOf, washOf } from "../support/runs.ts";
import { cellar, talk, wet } from "../support/talk.ts";

const evidenceIn = (bench: Bench, run = "run-1") =>
  logOf(bench, Object.values(bench.runs), run)?.evidence ?? [];

const kindsOf = (trouble: Trouble, process: "C-41" | "black-and-white" = "C-41") =>
  evidenceIn(benchAfter(process, trouble)).map(({ kind }) => kind);

const test1 = (passed: boolean) => ({
  tests: [{ at: at(60), on: "2026-11-28", by: "Ines", passed }],
});
const foul = { suspect: { since: evening, why: "something got in", contaminated: true as const } };
const doubt = { suspect: { since: evening, why: "it looks wrong" } };
const check = (read: number, reference: number) => ({
  thermometers: {
    red: {
      name: "red",
      checks: [{ at: at(9000), read: celsius(read), reference: celsius(reference) }],
    },
  },
});
const suspects = (kind: "sheet" | "thermometer", name: string) => ({
  suspects: [{ kind, name, since: instant(evening), why: "it was out" }],
});
const tank = (ml: number) => ({
  tanks: {
    north: {
      name: "north",
      layouts: [[{ takes: ["135-36" as const], rolls: 1, ml: millilitres(ml) }]],
    },
  },
});
const reading = (verified: boolean): Trouble => ({
  run: {
    readings: [
      {
        at: at(60),
        stage: 0,
        bath: "developer",
        temperature: celsius(38.1),
        thermometer: "red",
        ...(verified ? {} : { unverified: "Unverified: never held against the reference." }),
      },
    ],
  },
});

const cactus = bottleOf({
  id: "cactus",
  name: "Cactus",
  bath: "stabilizer",
  sheet: "demo",
  mixedOn: "2026-08-01",
});

/** Each line of the log and what it is to be called. Figures invented. */
const troubles: readonly (readonly [
  kind: string,
  trouble: Trouble,
  process?: "black-and-white",
])[] = [
  ["developer-cool", { read: { 0: 37.8 } }],
  ["developer-cold", { read: { 0: 36 } }],
  ["developer-warm", { read: { 0: 38.7 } }],
  ["developer-hot", { read: { 0: 40 } }],
  ["developer-in-band", reading(true)],
  ["developer-in-band-unverified", reading(false)],
  ["no-reading", {}],
  ["drift-kept", { stages: { 0: { driftAnswer: { choice: "keep", band: "hold" } } } }],
  ["thermometer-suspect", { read: { 0: 38.2 }, bench: suspects("thermometer", "red") }],
  ["thermometer-anew-low", { read: { 0: 38.2 }, bench: check(38.2, 36.4) }],
  ["thermometer-anew-high", { read: { 0: 38.2 }, bench: check(38.2, 40) }],
  ["developer-short", { off: { 0: -60 } }],
  ["developer-long", { off: { 0: 60 } }],
  ["developer-timed", {}],
  ["developer-time-assumed", { stages: { 0: { plusMinus: seconds(10) } } }],
  ["developer-missing", { stages: { 0: { skipped: true } } }],
  ["fixing-before-developer", { stages: { 1: { inAt: at(0) } } }],
  ["order-kept", {}],
  ["developer-near", { acorn: { mixedOn: "2026-11-01" } }],
  ["developer-past", { done: [10, 5] }],
  ["developer-fresh", { done: [1, 1], acorn: { mixedOn: "2026-11-27" } }],
  ["developer-undated", { acorn: { dateAssumed: "bought that year" } }],
  ["developer-suspect", { acorn: doubt }],
  ["developer-contaminated", { acorn: foul }],
  ["developer-test-failed", { acorn: test1(false) }],
  ["developer-test-passed", { acorn: test1(true) }],
  ["reuse-unallowed", { done: [4, 4] }],
  [
    "reuse-allowed",
    {
      done: [4, 4],
      stages: { 0: { corrections: [{ kind: "re-use", by: seconds(30), how: "5 % each" }] } },
    },
  ],
  ["push-missing", { roll: { push: 1 } }],
  ["push-extra", { run: { push: 1 } }],
  ["push-as-asked", {}],
  ["mark-silver", { roll: { marked: "black-and-white" } }],
  ["mark-other", { roll: { marked: "E-6" } }],
  ["mark-right", { roll: { marked: "C-41" } }],
  ["roll-doubtful", { roll: { doubtful: true } }],
  ["roll-backed", { roll: { blackBacked: true } }],
  ["fixing-near", { done: [5, 7] }],
  ["fixing-past", { done: [5, 11] }],
  ["fixing-fresh", { done: [1, 1], banjo: { mixedOn: "2026-11-20" } }],
  ["fixing-undated", { banjo: { dateAssumed: "bought that year" } }],
  ["fixing-suspect", { banjo: doubt }],
  ["fixing-contaminated", { banjo: foul }],
  ["fixing-test-failed", { banjo: test1(false) }],
  ["fixing-test-passed", { banjo: test1(true) }],
  ["bleaching-near", { done: [5, 7] }],
  ["bleaching-past", { done: [5, 11] }],
  ["bleaching-fresh", { done: [1, 1], banjo: { mixedOn: "2026-11-20" } }],
  ["bleaching-undated", { banjo: { dateAssumed: "bought that year" } }],
  ["bleaching-suspect", { banjo: doubt }],
  ["bleaching-contaminated", { banjo: foul }],
  ["bleaching-test-failed", { banjo: test1(false) }],
  ["bleaching-test-passed", { banjo: test1(true) }],
  ["fixing-short", { off: { 2: -200 } }, "black-and-white"],
  ["fixing-skipped", { stages: { 2: { skipped: true } } }, "black-and-white"],
  ["fixing-cold", { read: { 1: 30 } }],
  ["fixing-full", {}],
  ["bleaching-short", { off: { 1: -200 } }],
  ["bleaching-skipped", { stages: { 1: { skipped: true } } }],
  ["bleaching-cold", { read: { 1: 30 } }],
  ["bleaching-full", {}],
  ["wash-short", { off: { 2: -100 } }],
  ["wash-skipped", { stages: { 2: { skipped: true } } }],
  ["wash-full", {}],
  ["wash-long", { off: { 2: 1000 } }],
  ["wash-warm", { read: { 2: 43 } }],
  ["stabilizer-skipped", { stages: { 3: { skipped: true } } }],
  ["stabilizer-short", { off: { 3: -40 } }],
  ["stabilizer-full", {}],
  ["stabilizer-past", { stages: { 3: { bottle: "cactus" } }, bench: { bottles: { cactus } } }],
  ["baths-jump", { read: { 1: 38, 2: 22 } }],
  ["baths-level", { read: { 1: 38, 2: 37 } }],
  ["beats-silent", { stages: { 0: { beatsSilent: [seconds(60)] } } }],
  ["no-beats", { stages: { 0: { agitation: undefined } } }],
  ["pour-slow", { stages: { 0: { pourAt: at(-60) } } }],
  ["volume-low", { bench: tank(1200) }],
  ["volume-enough", { bench: tank(600) }],
  ["sheet-suspect", { bench: suspects("sheet", "demo") }],
  ["shown-before", { bench: { diagnoses: [proved("acorn")] } }],
  ...troubleRules.map(({ kind, what, detail }) => {
    const trouble: Trouble = { run: { troubles: [{ at: at(60), what, detail }] } };
    return [kind, trouble] as const;
  }),
  ["note-wet", { run: { after: { different: "loaded wet" } } }],
  ...noteRules.map(({ kind, ways }) => [kind, { note: `it was odd: ${ways[0]} today` }] as const),
];

function proved(bottle: string) {
  return {
    id: "diagnosis-1",
    at: evening,
    by: "Ines",
    run: "run-9",
    symptoms: ["thin"],
    given: {},
    ranking: ["dead-developer"],
    proved: {
      cause: "dead-developer",
      at: evening,
      by: "Ines",
      culprit: { kind: "bottle" as const, id: bottle },
    },
  };
}

describe("what the log says has a name", () => {
  const rows = troubles.map(([kind, trouble, process]) => ({ kind, trouble, process }));

  test.each(rows)("$kind", ({ kind, trouble, process }) => {
    expect(kindsOf(trouble, process)).toContain(kind);
  });

  test("every kind the tables weigh can come about", () => {
    const named = new Set(troubles.map(([kind]) => kind));
    expect([...faultTables.evidence.keys()].filter((kind) => !named.has(kind))).toEqual([]);
    const seen = new Set(troubles.flatMap(([, trouble, process]) => kindsOf(trouble, process)));
    const weighed = [...seen].filter((kind) => faultTables.evidence.has(kind));
    // What has no weight is of roles the tables do not weigh, and says nothing.
    expect(weighed.length).toBe(faultTables.evidence.size);
  });

  test("an odd evening says no more than is odd", () => {
    const even = kindsOf({ ...reading(true), done: [1, 1], acorn: { mixedOn: "2026-11-27" } });
    expect(
      even.filter((kind) => /short|long|cold|hot|past|suspect|jump|low|skipped/.test(kind)),
    ).toEqual([]);
  });
});

test("the troubles weighed are those the tank can tell of, in the words it keeps them in", () => {
  const kept = rescues.flatMap((rescue) =>
    Object.keys(rescue.verdicts).map((detail) => troubleWords(rescue, detail)),
  );
  for (const { what, detail } of troubleRules) expect(kept).toContainEqual({ what, detail });
});

test("trouble told at the tank is weighed when the film is judged", () => {
  const { run } = talk(cellar, ...wet, "trouble", "light got in", "developer");
  const trouble: Trouble = { run: { troubles: run?.troubles } };
  expect(kindsOf(trouble)).toContain("trouble-light-developer");
});

test("figures of the log stand in its words", () => {
  const texts = evidenceIn(
    benchAfter("C-41", { off: { 0: -60 }, read: { 0: 36.6 }, done: [10, 2] }),
  )
    .map(({ text }) => text)
    .join("\n");
  expect(texts).toContain("36.6 °C read, 38.2 °C ±0.2 planned");
  expect(texts).toContain("2:25 real, 3:25 planned");
  expect(texts).toContain("10 of 9 units");
});

describe("baths started one by one in a tank belong to one load", () => {
  const ended = (id: string, kind: "developer" | "wash", from: number) => {
    const stage = kind === "wash" ? washOf() : stageOf();
    return runOf([{ ...stage, inAt: at(from), outAt: at(from + 200) }], {
      id,
      plannedAt: at(from - 30),
      endedAt: at(from + 200),
    });
  };
  const [one, two, three, four] = [
    ended("a", "developer", 0),
    ended("b", "wash", 400),
    ended("c", "developer", 900),
    ended("d", "wash", 1300),
  ];
  const all = [one, two, three, four];
  const kinds = (id: "a" | "b" | "c" | "d") => {
    const run = all.find((each) => each.id === id) ?? one;
    return wholeRun(run, all).stages.map(({ inAt }) => inAt);
  };

  test("a second developer is a second load", () => {
    expect(kinds("a")).toEqual([at(0), at(400)]);
    expect(kinds("b")).toEqual([at(0), at(400)]);
    expect(kinds("d")).toEqual([at(900), at(1300)]);
  });

  test("another day is another load", () => {
    const late = { ...two, plannedAt: later(at(0), 90_000) };
    expect(wholeRun(one, [one, late]).stages).toHaveLength(1);
  });
});
