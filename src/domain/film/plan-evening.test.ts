import { expect, test } from "vitest";
import {
  anyEvening,
  exhaust,
  judge,
  reelOf,
  rollOf,
  sequenceOf,
  small,
  supplyOf,
} from "../../../test/support/evenings.ts";
import { seeded } from "../../../test/support/seeded.ts";
import { millilitres, units } from "../units/quantity.ts";
import { compareScores, type Evening } from "./evening.ts";
import { planByBeam, planGreedily } from "./evening-beam.ts";
import { poseProblem } from "./evening-problem.ts";
import { planEvening } from "./plan-evening.ts";

// INVENTED rolls, tanks and times. The rules are the trade's own: process, push and reels in the
// same tank, test first, important early, drying of reels: common practice, no source.
const one = { name: "one", layouts: [[reelOf(small, 300)]] };
const two = {
  name: "two",
  layouts: [[reelOf(small, 300), reelOf(small, 300)], [reelOf(["120"], 500)]],
};

const evening = (change: Partial<Evening>): Evening => ({
  rolls: [],
  tanks: [two],
  supplies: [supplyOf()],
  minutes: 600,
  drying: 30,
  ...change,
});

const loads = (of: Evening) =>
  planEvening(of).loads.map(({ rolls, start, end }) => `${rolls.join("+")} ${start}-${end}`);

const why = (of: Evening) =>
  Object.fromEntries(planEvening(of).leftOut.map(({ roll, kind }) => [roll, kind]));

test("no rolls, no plan, and that is the best there is", () => {
  expect(planEvening(evening({}))).toEqual({
    loads: [],
    leftOut: [],
    minutes: 0,
    clipTests: [],
    optimal: true,
  });
});

test("two rolls share a tank and need the solution of two reels", () => {
  const plan = planEvening(evening({ rolls: [rollOf("a"), rollOf("b")] }));
  expect(plan.loads).toMatchObject([
    { rolls: ["a", "b"], volume: 600, units: 2, start: 0, end: 40 },
  ]);
});

test("one roll in the same tank needs the solution of one reel", () => {
  expect(planEvening(evening({ rolls: [rollOf("a")] })).loads[0]?.volume).toBe(300);
});

test("a tank waits until its reels are dry, another does not", () => {
  const rolls = [rollOf("a"), rollOf("b", { push: 1 })];
  expect(loads(evening({ rolls, tanks: [one] }))).toEqual(["a 0-40", "b 70-110"]);
  expect(loads(evening({ rolls, tanks: [one, two] }))).toHaveLength(2);
  expect(planEvening(evening({ rolls, tanks: [one, two] })).minutes).toBe(80);
});

test("another push is another load, and the reason when there is no time for it", () => {
  const rolls = [rollOf("a"), rollOf("b"), rollOf("c", { push: 2 })];
  expect(why(evening({ rolls, minutes: 100 }))).toEqual({ c: "mixed-push" });
});

test("most important rolls come first, even when that means fewer rolls", () => {
  const rolls = [rollOf("a"), rollOf("b"), rollOf("c", { push: 1, important: true })];
  expect(loads(evening({ rolls, minutes: 50 }))).toEqual(["c 0-40"]);
});

test("important rolls go in while the bath is young", () => {
  const rolls = [rollOf("a"), rollOf("b", { push: 1, important: true }), rollOf("c", { push: 2 })];
  expect(planEvening(evening({ rolls })).loads[0]?.rolls).toEqual(["b"]);
});

test("a doubtful bath is tried on a roll that does not matter, then come those that do", () => {
  const rolls = [rollOf("a", { important: true }), rollOf("b"), rollOf("c", { doubtful: true })];
  const plan = planEvening(evening({ rolls, supplies: [supplyOf({ doubtful: true })] }));
  expect(plan.loads).toMatchObject([
    { rolls: expect.arrayContaining(["b"]), test: true },
    { rolls: expect.arrayContaining(["a"]), test: false },
  ]);
  expect(plan.clipTests).toEqual([]);
});

test("without such a roll a clip of film comes first; doubtful film proves nothing", () => {
  const rolls = [rollOf("a", { important: true }), rollOf("c", { doubtful: true })];
  const plan = planEvening(evening({ rolls, supplies: [supplyOf({ doubtful: true })] }));
  expect(plan.clipTests).toEqual(["C-41"]);
  expect(plan.loads).toHaveLength(1);
});

test.each([
  { roll: rollOf("a", { marked: undefined }), kind: "marking-not-stated" },
  { roll: rollOf("a", { marked: "black-and-white" }), kind: "silver-in-colour" },
  { roll: rollOf("a", { marked: "ECN-2", backing: true }), kind: "black-backed" },
  { roll: rollOf("a", { backing: true }), kind: "black-backed" },
  { roll: rollOf("a", { marked: "ECN-2", backing: false }), kind: "no-chemistry" },
  { roll: rollOf("a", { format: "220", units: units(2) }), kind: "no-reel" },
  { roll: rollOf("a", { format: "120" }), kind: "too-little-solution" },
  { roll: rollOf("a", { units: units(3.5) }), kind: "no-capacity" },
])("$roll.format marked $roll.marked waits: $kind", ({ roll, kind }) => {
  const supplies = [supplyOf({ volume: millilitres(400), unitsLeft: units(3) })];
  expect(why(evening({ rolls: [roll], supplies }))).toEqual({ a: kind });
});

test("a process of its own takes silver film and black-backed film", () => {
  const rolls = [
    rollOf("a", { marked: "black-and-white" }),
    rollOf("b", { marked: "ECN-2", backing: true }),
  ];
  const supplies = [supplyOf({ process: "black-and-white" }), supplyOf({ process: "ECN-2" })];
  expect(planEvening(evening({ rolls, supplies })).loads).toHaveLength(2);
});

test("no load takes more film than the bath has left, and says what is left", () => {
  const rolls = ["a", "b", "c", "d"].map((id) => rollOf(id));
  const plan = planEvening(evening({ rolls, supplies: [supplyOf({ unitsLeft: units(3) })] }));
  expect(plan.loads.at(-1)?.unitsAfter).toBe(0);
  expect(plan.leftOut).toEqual([{ kind: "no-capacity", roll: "d", left: 0 }]);
});

test("an evening too short for one load says how long a load takes", () => {
  const plan = planEvening(evening({ rolls: [rollOf("a")], minutes: 30 }));
  expect(plan.leftOut).toEqual([{ kind: "no-time", roll: "a", minutes: 40 }]);
});

test("the plan is as good as the best of every possible sequence of loads", () => {
  const chance = seeded(20261128);
  for (let round = 0; round < 500; round += 1) {
    const of = anyEvening(chance, 1 + Math.floor(chance() * 5), 1 + Math.floor(chance() * 2));
    const plan = planEvening(of);
    const score = judge(of, sequenceOf(of, plan));
    expect(score, JSON.stringify(of)).toBeDefined();
    const best = exhaust(of);
    expect(score && compareScores(score, best), JSON.stringify({ of, score, best })).toBe(0);
    expect(score?.minutes).toBe(plan.minutes);
    expect(plan.optimal).toBe(true);
  }
}, 120_000);

test("every roll is either in one load or has one reason", () => {
  const chance = seeded(7);
  for (let round = 0; round < 100; round += 1) {
    const of = anyEvening(chance, 12, 3);
    const plan = planEvening(of);
    const told = [...plan.loads.flatMap(({ rolls }) => rolls), ...plan.leftOut.map((x) => x.roll)];
    expect(told.sort()).toEqual(of.rolls.map(({ id }) => id).sort());
    expect(judge(of, sequenceOf(of, plan))).toBeDefined();
  }
});

test("twelve rolls are planned exactly, each evening within 200 ms", () => {
  const chance = seeded(12);
  const times: number[] = [];
  for (let round = 0; round < 100; round += 1) {
    const of = anyEvening(chance, 12, 3);
    const from = performance.now();
    expect(planEvening(of).optimal).toBe(true);
    times.push(performance.now() - from);
  }
  times.sort((a, b) => a - b);
  // The slowest may meet a pause of the machine; what is promised is held with room to spare.
  expect(times[94]).toBeLessThan(200);
});

test("sixty rolls in five tanks are planned within 200 ms an evening", () => {
  const chance = seeded(61);
  const times = Array.from({ length: 20 }, () => {
    const of = anyEvening(chance, 60, 5);
    const from = performance.now();
    planEvening(of);
    return performance.now() - from;
  });
  expect(times.sort((a, b) => a - b)[18]).toBeLessThan(200);
});

test("beyond that a plan is never worse than the greedy one, and keeps every rule", () => {
  const chance = seeded(60);
  for (let round = 0; round < 12; round += 1) {
    const of = anyEvening(chance, 60, 3);
    const { problem } = poseProblem(of);
    const greedy = planGreedily(problem).score;
    expect(compareScores(planByBeam(problem).score, greedy)).toBeLessThanOrEqual(0);
    const score = judge(of, sequenceOf(of, planEvening(of)));
    expect(score && compareScores(score, greedy)).toBeLessThanOrEqual(0);
  }
});
