import fc from "fast-check";
import { expect, test } from "vitest";
import { arbitraryRun } from "../../../test/support/arbitrary-run.ts";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { millilitres, seconds, units } from "../units/quantity.ts";
import { countFilm } from "./count-film.ts";
import { decide } from "./decide.ts";
import { pouredIn } from "./hear.ts";
import { explainRehearsal, rehearsalMark, rehearse } from "./rehearsal.ts";
import { type Run, runSchema } from "./run.ts";

const planned = runOf([stageOf({ bottle: "dora", vent: seconds(10) }), washOf()], {
  film: [{ format: "135-36", count: 2 }],
  rolls: ["roll-1"],
});

function rehearsalOf(run: Run, speed: number): Run {
  const made = rehearse(run, speed);
  if (!made.ok) throw new Error(made.error.kind);
  return made.value;
}

test("ten times as fast: every length is a tenth, the order and the senses stay", () => {
  const run = rehearsalOf(planned, 10);
  expect(run.rehearsal).toEqual({ speed: 10 });
  expect(run.window).toBe(2);
  expect(run.stages[0]).toMatchObject({
    bath: "developer",
    sense: "exact",
    time: 19.5,
    drain: 1,
    vent: 1,
    agitation: { initial: 3, every: 3, each: 0.5 },
    pourAt: at(3),
    timeOrigin: { kind: "computed", source: "3:15 divided by 10, rehearsal" },
  });
  expect(run.stages.map(({ bath }) => bath)).toEqual(["developer", "wash"]);
});

test("at real speed the times and their origins are the plan's own", () => {
  const run = rehearsalOf(planned, 1);
  expect(run.stages.map(({ time }) => time)).toEqual([195, 195]);
  expect(run.stages[0]?.timeOrigin).toEqual(planned.stages[0]?.timeOrigin);
  expect(run.stages[0]?.pourAt).toBe(planned.stages[0]?.pourAt);
});

test("it is marked, and names neither film nor bottle: a bottle's name would send the hand to it", () => {
  const run = rehearsalOf(planned, 10);
  expect(run.title).toBe("test, rehearsal");
  expect(rehearsalMark(run)).toBe(
    "REHEARSAL with water and a scrap roll, 10 times as fast. Nothing is counted.",
  );
  expect(rehearsalMark(rehearsalOf(planned, 1))).toBe(
    "REHEARSAL with water and a scrap roll. Nothing is counted.",
  );
  expect(rehearsalMark(planned)).toBeUndefined();
  expect([run.film, run.rolls, run.stages[0]?.bottle]).toEqual([[], undefined, undefined]);
});

test("nothing is counted, even where film and a bottle were put back into it", () => {
  const wet = pouredIn(
    { ...rehearsalOf(planned, 10), film: planned.film, stages: [...planned.stages] },
    at(40),
  );
  const bench = {
    ...benchWith(wet),
    bottles: {
      dora: {
        id: "dora",
        name: "Dora",
        mark: "square",
        bath: "developer",
        volume: millilitres(1000),
        mixedOn: "2026-11-28",
        by: "Ines",
        used: units(3),
      },
    },
  };
  expect(countFilm(bench, wet.id)).toBe(bench);
  const { rehearsal: _, ...real } = wet;
  expect(countFilm({ ...bench, runs: { [wet.id]: real } }, wet.id).bottles.dora?.used).toBe(5);
});

test.each([0, 0.5, 61, -3, Number.NaN, Number.POSITIVE_INFINITY])(
  "a speed of %s is refused",
  (speed) => {
    const made = rehearse(planned, speed);
    expect(made).toEqual({ ok: false, error: { kind: "speed-out-of-range", speed } });
    expect(!made.ok && explainRehearsal(made.error)).toContain("1 (real time) to 60");
  },
);

test("a run that has been poured, and a rehearsal, are not rehearsed", () => {
  expect(rehearse(pouredIn(planned, at(40)), 2)).toMatchObject({ error: { kind: "already-wet" } });
  expect(rehearse(rehearsalOf(planned, 2), 2)).toMatchObject({
    error: { kind: "already-rehearsal" },
  });
});

test("any plan rehearsed is a valid record that runs to its end by itself, sooner than the plan", () => {
  const ends = fc.property(arbitraryRun, fc.integer({ min: 1, max: 60 }), (run, speed) => {
    const made = rehearsalOf(run, speed);
    expect(runSchema.parse(JSON.parse(JSON.stringify(made)))).toEqual(
      JSON.parse(JSON.stringify(made)),
    );
    const endOf = (one: Run) =>
      decide(benchWith(one), at(100_000)).bench.runs[one.id]?.endedAt ?? Number.NaN;
    const [real, fast] = [endOf(run) - run.plannedAt, endOf(made) - run.plannedAt];
    // Each of its lengths is rounded to the millisecond.
    expect(Math.abs(fast * speed - real)).toBeLessThanOrEqual(speed * 40);
  });
  fc.assert(ends, { numRuns: 60 });
});
