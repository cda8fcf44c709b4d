import { expect, test } from "vitest";
import { cellar, talk, wet } from "../support/talk.ts";

const unset = (...lines: readonly (string | number)[]) =>
  talk(undefined, "start developer", 1, "ready", 9, "in", 20, ...lines);

test.each(["temperature 99", "temperature 100", "developer is at 99.5", "temp ninety nine"])(
  "%s with no unit set is asked about, and nothing is logged",
  (sentence) => {
    const { reply, run } = unset("temperature 37.6", 20, sentence);
    expect(reply.kind).toBe("question");
    expect(reply.title).toMatch(/celsius or fahrenheit\?$/);
    expect(run?.readings).toHaveLength(1);
  },
);

test("the answer is kept: it is asked once", () => {
  const { reply, bench, run } = unset("temperature 100", "fahrenheit");
  expect(run?.readings[0]?.temperature).toBeCloseTo(37.78, 2);
  expect(bench.degrees).toBe("F");
  expect(reply.lines.join(" ")).toContain("set degrees C changes that");
  const next = unset("temperature 100", "fahrenheit", 20, "temperature 100");
  expect(next.reply.kind).toBe("reply");
  expect(next.run?.readings).toHaveLength(2);
});

test.each(["yes", "no"])("%s is no answer to which degrees: it says how to answer", (word) => {
  const { reply, run } = unset("temperature 99", word);
  expect(reply.kind).toBe("question");
  expect(reply.title).toContain("Say celsius or fahrenheit");
  expect(unset("temperature 99.7", word, "fahrenheit").run?.readings).toHaveLength(1);
  expect(run?.readings).toHaveLength(0);
});

test("yes still answers a pour that waits for it, whatever else is open", () => {
  const { run } = talk(undefined, "start developer", 1, "ready", 25, "temperature 99", "yes");
  expect(run?.stages[0]?.inAt).toBeDefined();
});

test("yes is no answer to keep, adjust or log", () => {
  const { sheets } = talk(cellar, "left").bench;
  expect(sheets).toHaveProperty("cellar");
  const asked = ["use the demo", "set degrees C", ...wet, 60, "temperature 37.4"] as const;
  const { reply } = talk(undefined, ...asked, "yes");
  expect(reply.title).toContain("Say keep, adjust a little or log as fault");
});

test("a unit that is set or said is never asked about", () => {
  expect(unset("temperature 99.7 F").reply.kind).not.toBe("refusal");
  expect(unset("temperature 99.7 F").run?.readings).toHaveLength(1);
  expect(unset("set degrees F", "temperature 99.7").run?.readings).toHaveLength(1);
});

test("a unit that is set stays set, whatever is answered", () => {
  const { bench } = unset("set degrees C", "temperature 100", "fahrenheit");
  expect(bench.degrees).toBe("C");
});
