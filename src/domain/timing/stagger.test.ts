import fc from "fast-check";
import { expect, test } from "vitest";
import { arbitraryRun } from "../../../test/support/arbitrary-run.ts";
import { at, evening, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { finish } from "../session/advance.ts";
import { pouredIn, pouredOut, putOff } from "../session/hear.ts";
import { later, seconds } from "../units/quantity.ts";
import {
  collisions,
  explainCollision,
  explainStagger,
  type Hands,
  handsOf,
  maybeMoved,
  putBack,
  type Serving,
  stagger,
} from "./stagger.ts";

const common = { lead: seconds(5), from: evening, serving: "one for all" as Serving };
const north = runOf([stageOf(), washOf()], { tank: "North" });
const south = runOf([stageOf(), washOf()], { id: "run-2", tank: "South" });
const hands = (run: typeof north, change: Partial<typeof common> = {}) =>
  handsOf(run, { ...common, ...change });

test("hands are busy from the lead to the end of a pour window, and while pouring out", () => {
  // Pour at 30 s under a window of 20 s; in at 40 s, out from 225 s to 235 s, and the wash from there.
  expect(hands(north)).toEqual({
    tank: "North",
    person: "all",
    busy: [
      { from: at(25), to: at(50), at: at(30), what: "pour", bath: "developer" },
      { from: at(225), to: at(235), at: at(225), what: "pour out", bath: "developer" },
      { from: at(230), to: at(255), at: at(235), what: "pour", bath: "wash" },
      { from: at(430), to: at(440), at: at(430), what: "pour out", bath: "wash" },
    ],
  });
});

test("two runs planned for the same moment are set apart by a pour with its lead", () => {
  const found = stagger(hands(south), [hands(north)]);
  expect(found).toMatchObject({ kind: "delay", delay: 30 });
  expect(explainStagger(found, "South", "UTC")).toBe("put off 30 s: North pours wash at 19:33:55.");
});

test("with a person at each tank nothing is moved", () => {
  const serving = "one per tank" as const;
  const found = stagger(hands(south, { serving }), [hands(north, { serving })]);
  expect(found).toEqual({ kind: "delay", delay: 0, met: undefined });
  expect(explainStagger(found, "South", "UTC")).toBeUndefined();
});

test("a run alone is not moved, and a run is never in its own way", () => {
  expect(stagger(hands(north), [])).toMatchObject({ delay: 0 });
  expect(stagger(hands(north), [hands(north)])).toMatchObject({ delay: 0 });
});

test("where no start is free within the bound, it says what would meet", () => {
  const long = (tank: string): Hands => ({
    tank,
    person: "all",
    busy: [
      { from: evening, to: later(evening, 500), at: evening, what: "pour", bath: "developer" },
    ],
  });
  const found = stagger(long("South"), [long("North")], seconds(499));
  expect(found.kind).toBe("no-room");
  expect(explainStagger(found, "South", "UTC")).toContain("have a second person serve it");
  expect(stagger(long("South"), [long("North")], seconds(500))).toMatchObject({ delay: 500 });
});

test("a collision in words names the later action first, whichever run is asked", () => {
  const slow = runOf([stageOf()], { tank: "South", lead: 210 });
  const [one] = collisions(hands(slow), [hands(north)]);
  const [other] = collisions(hands(north), [hands(slow)]);
  const words =
    "At 19:33:45 North needs developer poured out while South needs developer poured in.";
  expect([one, other].map((found) => found && explainCollision(found, "UTC"))).toEqual([
    words,
    words,
  ]);
});

test("a run is moved before its first pour and never after", () => {
  expect(putBack(south, seconds(45), at(10)).stages[0]?.pourAt).toBe(at(75));
  const planned = (now: number) => maybeMoved(south, at(now));
  expect([planned(0), planned(29), planned(30), planned(100)]).toEqual([true, true, false, false]);
  for (const run of [pouredIn(south, at(20)), finish(south, at(20), "stopped"), putOff(south)]) {
    expect(putBack(run, seconds(45), at(21))).toBe(run);
  }
  expect(putBack(south, seconds(45), at(30))).toBe(south);
  expect(putBack(south, seconds(0), at(10))).toBe(south);
});

test("baths that are over keep no hands busy, nor does a run that has ended", () => {
  const washing = pouredOut(pouredIn(north, at(40)), at(235));
  expect(hands(washing).busy.every(({ bath }) => bath === "wash")).toBe(true);
  expect(hands(finish(north, at(50), "stopped")).busy).toEqual([]);
});

const tanks = fc
  .array(arbitraryRun, { minLength: 2, maxLength: 8 })
  .map((runs) => runs.map((run, n) => ({ ...run, id: `run-${n}`, tank: `Tank ${n}` })));

/** The same question answered by trying every second. */
const bruteForce = (fresh: Hands, others: readonly Hands[], bound: number): number | undefined => {
  for (let delay = 0; delay <= bound; delay += 1) {
    if (collisions(fresh, others, delay).length === 0) return delay;
  }
  return undefined;
};

test("the delay is free of collisions and no smaller one is: against trying every second", () => {
  const servings = fc.constantFrom<Serving>("one for all", "one per tank");
  const exact = fc.property(
    tanks,
    servings,
    fc.integer({ min: 0, max: 40 }),
    (runs, serving, lead) => {
      const [fresh, ...others] = runs.map((run) =>
        handsOf(run, { lead: seconds(lead), from: evening, serving }),
      );
      if (fresh === undefined) return;
      const found = stagger(fresh, others, seconds(300));
      const tried = bruteForce(fresh, others, 300);
      expect(found.kind === "delay" ? found.delay : undefined).toBe(tried);
    },
  );
  fc.assert(exact, { numRuns: 60 });
});

test("eight tanks set one after another need one pair of hands at a time", () => {
  const all = fc.property(tanks, (runs) => {
    const set: Hands[] = [];
    for (const run of runs) {
      const fresh = hands(run);
      const found = stagger(fresh, set, seconds(100_000));
      if (found.kind !== "delay") throw new Error("no room");
      expect(collisions(fresh, set, found.delay)).toEqual([]);
      const moved = hands(putBack(run, found.delay, evening));
      if (run.stages[0]?.pourAt !== evening) expect(collisions(moved, set)).toEqual([]);
      set.push({
        ...fresh,
        busy: fresh.busy.map((span) => ({
          ...span,
          from: later(span.from, found.delay),
          to: later(span.to, found.delay),
        })),
      });
    }
  });
  fc.assert(all, { numRuns: 40 });
});

test("half seconds are rounded up to the next whole one that is free", () => {
  const tank = (name: string, from: number, to: number): Hands => ({
    tank: name,
    person: "all",
    busy: [{ from: at(from), to: at(to), at: at(from), what: "pour", bath: "developer" }],
  });
  expect(stagger(tank("South", 0, 10), [tank("North", 0, 10.5)])).toMatchObject({ delay: 11 });
  expect(stagger(tank("South", 0, 10), [tank("North", 10, 20)])).toMatchObject({ delay: 0 });
});
