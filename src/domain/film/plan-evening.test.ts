import { expect, test } from "vitest";
import {
  anyEvening,
  bottleOf,
  exhaust,
  judge,
  reelOf,
  rollOf,
  sequenceOf,
  small,
  supplyOf,
  withBottles,
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
    { rolls: expect.arrayContaining(["b"]), tests: ["C-41 bottle"] },
    { rolls: expect.arrayContaining(["a"]), tests: [] },
  ]);
  expect(plan.clipTests).toEqual([]);
});

test("without such a roll a clip of film comes first; doubtful film proves nothing", () => {
  const rolls = [rollOf("a", { important: true }), rollOf("c", { doubtful: true })];
  const plan = planEvening(evening({ rolls, supplies: [supplyOf({ doubtful: true })] }));
  expect(plan.clipTests).toEqual(["C-41 bottle"]);
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

test("a second bottle of a bath takes what the first cannot", () => {
  const rolls = ["a", "b", "c", "d", "e", "f", "g"].map((id) => rollOf(id));
  const big = { name: "big", layouts: [Array.from({ length: 3 }, () => reelOf(small, 300))] };
  const baths = [
    [bottleOf("acorn", { unitsLeft: units(4) }), bottleOf("maple", { unitsLeft: units(4) })],
    [bottleOf("blix", { unitsLeft: units(20) })],
  ];
  const plan = planEvening(
    evening({ rolls, tanks: [big, one], supplies: [supplyOf({ baths })], minutes: 720 }),
  );
  expect(plan.leftOut).toEqual([]);
  expect(plan.optimal).toBe(true);
  const taken = (bottle: string) =>
    plan.loads.flatMap((load) => (load.bottles.includes(bottle) ? load.rolls : [])).length;
  expect([taken("acorn"), taken("maple"), taken("blix")].sort()).toEqual([3, 4, 7]);
});

test("a load pours from one bottle of a bath, never from two", () => {
  const rolls = [rollOf("a", { format: "220", units: units(2) })];
  const tank = { name: "deep", layouts: [[reelOf(["220"], 500)]] };
  const baths = [["acorn", "maple"].map((name) => bottleOf(name, { unitsLeft: units(1.5) }))];
  const plan = planEvening(evening({ rolls, tanks: [tank], supplies: [supplyOf({ baths })] }));
  expect(plan.leftOut).toEqual([{ kind: "no-capacity", roll: "a", left: 1.5 }]);
});

test("the bottle first in order is used up first; a quicker one only for an earlier end", () => {
  const used = (slower: number) => {
    const baths = [[bottleOf("acorn", { minutes: slower }), bottleOf("maple", { minutes: 5 })]];
    return planEvening(evening({ rolls: [rollOf("a")], supplies: [supplyOf({ baths })] })).loads;
  };
  expect(used(5)).toMatchObject([{ bottles: ["acorn"], end: 45 }]);
  expect(used(7.5)).toMatchObject([{ bottles: ["maple"], end: 45 }]);
});

test("a doubtful bottle is opened only where it gains film, and tested on its own first load", () => {
  const baths = [
    [bottleOf("old", { doubtful: true }), bottleOf("sound", { unitsLeft: units(2), minutes: 9 })],
  ];
  const plan = (ids: readonly string[]) =>
    planEvening(
      evening({
        rolls: [...ids.map((id) => rollOf(id, { important: true })), rollOf("z")],
        supplies: [supplyOf({ baths })],
      }),
    );
  expect(plan(["a"]).loads).toMatchObject([{ bottles: ["sound"], tests: [] }]);
  const { loads: more } = plan(["a", "b", "c"]);
  expect(more.find(({ bottles }) => bottles.includes("old"))).toMatchObject({
    rolls: ["z"],
    tests: ["old"],
  });
  expect(more.flatMap(({ rolls }) => rolls)).toHaveLength(4);
});

test("the test of one bottle leaves the sound bottle of another bath young", () => {
  const baths = [[bottleOf("old", { doubtful: true })], [bottleOf("blix")]];
  const rolls = [rollOf("a"), rollOf("b", { important: true })];
  const plan = planEvening(evening({ rolls, supplies: [supplyOf({ baths })] }));
  expect(plan.loads).toMatchObject([
    { rolls: ["a"], tests: ["old"] },
    { rolls: ["b"], tests: [] },
  ]);
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

test("with several bottles of a bath it is as good as the best of every sequence and pour", () => {
  const chance = seeded(20261129);
  for (let round = 0; round < 300; round += 1) {
    const rolls = 1 + Math.floor(chance() * 4);
    const tanks = 1 + Math.floor(chance() * 2);
    const of = withBottles(anyEvening(chance, rolls, tanks), chance, rolls < 4 ? 3 : 2);
    const plan = planEvening(of);
    const score = judge(of, sequenceOf(of, plan));
    expect(score, JSON.stringify({ of, plan })).toBeDefined();
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

test("twelve rolls are planned exactly", () => {
  const chance = seeded(12);
  for (let round = 0; round < 100; round += 1) {
    expect(planEvening(anyEvening(chance, 12, 3)).optimal).toBe(true);
  }
});

test("twelve rolls with several bottles a bath are mostly planned exactly; too hard ones say so", () => {
  const chance = seeded(13);
  let exact = 0;
  for (let round = 0; round < 100; round += 1) {
    const of = withBottles(anyEvening(chance, 12, 3), chance, 3);
    const plan = planEvening(of);
    expect(judge(of, sequenceOf(of, plan))).toBeDefined();
    if (plan.optimal) exact += 1;
  }
  expect(exact).toBeGreaterThan(80);
});

test("a shelf of a hundred bottles is no hindrance", () => {
  const shelf = (bath: string) =>
    Array.from({ length: 100 }, (_, at) =>
      bottleOf(`${bath} ${at}`, { unitsLeft: units(1 + (at % 7)), minutes: at % 5 }),
    );
  const rolls = Array.from({ length: 40 }, (_, at) => rollOf(`r${at}`, { push: at % 2 }));
  const of = evening({ rolls, supplies: [supplyOf({ baths: [shelf("dev"), shelf("blix")] })] });
  const plan = planEvening({ ...of, minutes: 1440 });
  expect(judge({ ...of, minutes: 1440 }, sequenceOf(of, plan))?.rolls).toBeGreaterThan(30);
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
