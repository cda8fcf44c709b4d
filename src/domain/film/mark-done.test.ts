import { expect, test } from "vitest";
import { at, benchWith, runOf, stageOf, washOf } from "../../../test/support/runs.ts";
import { countFilm, giveBack } from "../session/count-film.ts";
import { rollSchema } from "./roll.ts";

const rolls = { "roll-7": rollSchema.parse({ id: "roll-7", format: "120" }) };
const bench = (stages: Parameters<typeof runOf>[0]) => ({
  ...benchWith(runOf(stages, { rolls: ["roll-7", "roll-gone"] })),
  rolls,
});

test("a roll is done when film really went into a bath that works on it", () => {
  const planned = bench([washOf({ kind: "prewash" }), stageOf()]);
  expect(countFilm(planned, "run-1")).toBe(planned);
  const wet = bench([washOf({ kind: "prewash", inAt: at(0) }), stageOf()]);
  expect(countFilm(wet, "run-1")).toBe(wet);
  const went = countFilm(bench([stageOf({ inAt: at(0) })]), "run-1");
  expect(went.rolls["roll-7"]?.doneIn).toBe("run-1");
  expect(countFilm(went, "run-1")).toBe(went);
});

test("it waits again when it is said that nothing went in", () => {
  const went = countFilm(bench([stageOf({ inAt: at(0) })]), "run-1");
  expect(giveBack(went, "run-1").rolls["roll-7"]).toEqual(rolls["roll-7"]);
});

test("a roll that was done before keeps its run", () => {
  const before = bench([stageOf({ inAt: at(0) })]);
  const done = { ...before, rolls: { "roll-7": { ...rolls["roll-7"], doneIn: "run-0" } } };
  expect(countFilm(done as typeof before, "run-1").rolls["roll-7"]?.doneIn).toBe("run-0");
});
