import fc from "fast-check";
import { expect, test } from "vitest";
import { bottleOf, dayAfter, developerOf, sheetOf } from "../../../test/support/bottles.ts";
import { keepingRows } from "../../data/keeping.ts";
import { instant, millilitres, units } from "../units/quantity.ts";
import type { Bottle } from "./bottle.ts";
import { capacityLeft } from "./capacity-left.ts";
import { pourFrom, withFill } from "./fill.ts";
import { governs, lookAt, unitsLeft } from "./look.ts";

const shelf = { sheetOf: () => sheetOf(developerOf()), keeping: keepingRows, capacity: [] };
const look = (bottle: Bottle, days = 0) => lookAt(bottle, shelf, dayAfter(days));
const test1 = (on: string, passed = true) => ({ at: instant(0), on, by: "Ines", passed });

test("both clocks of a bottle, and the one that runs out first", () => {
  const found = look(bottleOf({ used: units(2) }), 20);
  expect(found.due).toBe(dayAfter(40));
  expect(found.daysLeft).toBe(20);
  expect(found.age).toBeCloseTo(0.5, 12);
  expect(found.unitsLeft).toBe(6);
  expect(found.worn).toBe(0.25);
  expect(found.governs).toBe("age");
  expect(look(bottleOf({ used: units(5) }), 20).governs).toBe("film");
});

test.each([
  { age: undefined, worn: undefined, by: undefined },
  { age: 0.2, worn: undefined, by: "age" },
  { age: undefined, worn: 0, by: "film" },
  { age: 0.5, worn: 0.5, by: "age" },
  { age: 0.5, worn: 0.51, by: "film" },
])("age $age against film $worn: $by governs", ({ age, worn, by }) => {
  expect(governs(age, worn)).toBe(by);
});

test.each([
  { what: "new", bottle: bottleOf(), day: 0, state: "fresh" },
  { what: "film in it", bottle: bottleOf({ used: units(1) }), day: 0, state: "in use" },
  {
    what: "poured from",
    bottle: pourFrom(bottleOf(), millilitres(300), true, dayAfter(0)),
    day: 0,
    state: "in use",
  },
  { what: "three quarters of its age", bottle: bottleOf(), day: 30, state: "near limit" },
  {
    what: "three quarters of its film",
    bottle: bottleOf({ used: units(6) }),
    day: 0,
    state: "near limit",
  },
  { what: "its last day", bottle: bottleOf(), day: 40, state: "near limit" },
  { what: "a day later", bottle: bottleOf(), day: 41, state: "past limit" },
  { what: "all its film", bottle: bottleOf({ used: units(8) }), day: 0, state: "past limit" },
  {
    what: "marked",
    bottle: bottleOf({ suspect: { since: instant(0), why: "smell" } }),
    day: 0,
    state: "suspect",
  },
  {
    what: "a failed test",
    bottle: bottleOf({ tests: [test1(dayAfter(0), false)] }),
    day: 0,
    state: "suspect",
  },
  { what: "retired", bottle: bottleOf({ retiredOn: dayAfter(2) }), day: 41, state: "retired" },
])("$what: $state", ({ bottle, day, state }) => {
  expect(look(bottle, day).state).toBe(state);
});

test("a record made before all this was kept still tells both clocks", () => {
  const old = bottleOf({ mixedOn: "2026-11-01", used: units(3) });
  expect(look(old, 4)).toMatchObject({ unitsLeft: 5, daysLeft: 36, state: "in use" });
});

test("what is lost of the solution is lost to film as well; what is out is not lost", () => {
  const bottle = bottleOf({ used: units(4) });
  const capacity = { value: units(8) };
  expect(unitsLeft(pourFrom(bottle, millilitres(500), true, dayAfter(1)), capacity)).toBe(4);
  expect(unitsLeft(pourFrom(bottle, millilitres(500), false, dayAfter(1)), capacity)).toBe(2);
});

test("replenisher makes film good, never more than was done", () => {
  const bottle = bottleOf({ used: units(6), replenished: units(4) });
  expect(look(bottle).unitsLeft).toBe(6);
  expect(look({ ...bottle, replenished: units(9) }).unitsLeft).toBe(8);
});

test("a clip test is wanted for an unknown date and past the limit; a passed one holds to the next day", () => {
  expect(look(bottleOf()).doubts).toEqual([]);
  expect(look(bottleOf({ dateAssumed: "1 November" })).doubts).toHaveLength(1);
  expect(look(bottleOf(), 45).doubts).toEqual(["it is past its keeping time"]);
  const tested = bottleOf({ tests: [test1(dayAfter(45))] });
  expect(look(tested, 46).doubts).toEqual([]);
  expect(look(tested, 47).doubts).toHaveLength(1);
});

test("a mark is not lifted by an older test", () => {
  const bottle = bottleOf({
    tests: [test1(dayAfter(0))],
    suspect: { since: instant(0), why: "blix went into it" },
  });
  expect(look(bottle).doubts).toEqual(["it is suspect: blix went into it"]);
});

test("capacity left by bath: sums, the most one bottle takes, and whether it is doubtful", () => {
  const near = bottleOf({ id: "b1", name: "Acorn", used: units(5) });
  const fresh = bottleOf({ id: "b2", name: "Banjo" });
  const gone = bottleOf({ id: "b3", name: "Cactus", retiredOn: dayAfter(1) });
  const stock = bottleOf({ id: "b4", name: "Dolphin", role: "stock" });
  const [group, ...others] = capacityLeft([near, fresh, gone, stock].map((one) => look(one, 3)));
  expect(others).toEqual([]);
  expect(group).toMatchObject({ kind: "developer", process: "C-41", left: 11, most: 8 });
  expect(group?.doubtful).toBe(false);
  // The one whose limit comes first is used up first.
  expect(group?.bottles.map(({ bottle }) => bottle.name)).toEqual(["Acorn", "Banjo"]);
});

test("chemistry is doubtful when every bottle of it is", () => {
  const unknown = bottleOf({ dateAssumed: "a year" });
  expect(capacityLeft([look(unknown)])[0]?.doubtful).toBe(true);
  expect(capacityLeft([look(unknown), look(bottleOf({ id: "b2" }))])[0]?.doubtful).toBe(false);
});

test("film left and film done are exact, whatever the load", () => {
  const law = fc.property(fc.nat({ max: 32 }), (quarters) => {
    const used = units(quarters / 4);
    const found = look(bottleOf({ used }));
    expect((found.unitsLeft ?? Number.NaN) + used).toBe(8);
  });
  fc.assert(law);
});

test("half empty, a bottle's last day comes nearer", () => {
  const half = withFill(bottleOf(), "half", dayAfter(3));
  expect((look(half, 3).due ?? "") < (look(bottleOf(), 3).due ?? "")).toBe(true);
});
