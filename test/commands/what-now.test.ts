import { expect, test } from "vitest";
import { cellar, talk, wet } from "../support/talk.ts";

test("what now with nothing running is what next, and opens no question", () => {
  const { reply } = talk(cellar, "what now");
  expect(reply.title).toBe(talk(cellar, "what next").reply.title);
  expect(reply.ask).toBeUndefined();
  expect(talk(cellar, "what now", "600").reply.title).not.toMatch(/advice/);
});

test("what now with film wet says where it stands, and the word for trouble", () => {
  const { reply } = talk(cellar, ...wet, 60, "what now");
  expect(reply.title).toMatch(/developer, 7:00 left/);
  expect(reply.lines.join(" ")).toMatch(/Say trouble/);
  expect(reply.ask).toBeUndefined();
});

test("trouble with no advice speaks of a clock only where one runs over film", () => {
  const dry = talk(cellar, "trouble", "600").reply;
  expect(`${dry.title} ${dry.say}`).not.toMatch(/by (its|the) clock/);
  expect(talk(cellar, ...wet, "trouble", "600").reply.title).toMatch(
    /Finish the bath by its clock/,
  );
});

test.each(["left", "bottles", "what time is it", "start fixer for 5 minutes"])(
  "%s is itself while trouble asks what happened",
  (said) => {
    const { reply } = talk(cellar, "trouble", said);
    expect(reply.title).toBe(talk(cellar, said).reply.title);
  },
);

test("what trouble had no advice on closes its question: the next words are their own", () => {
  const { values } = talk(cellar, "trouble", "600", "700");
  expect(values.reason).toBe("not-understood");
});

test("a verdict closes the question, too", () => {
  const { values } = talk(cellar, ...wet, "trouble", "spill", "no", "the weather is mild");
  expect(values.reason).toBe("not-understood");
});

test("what went wrong is the answer where words were asked for, and trouble where none were", () => {
  const stopped = ["stop", "yes"] as const;
  const { run } = talk(cellar, ...wet, ...stopped, "i forgot the stop bath");
  expect(run?.stoppedBecause).toBe("i forgot the stop bath");
  const { values } = talk(cellar, ...wet, "trouble", "i forgot the stop bath");
  expect(values.detail).toBe("the stop");
});
