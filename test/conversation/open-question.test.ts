import { expect, test } from "vitest";
import { attic, cellar, talk } from "../support/talk.ts";

const asked = ["use sheet black and white", "start developer"] as const;

test("yes is no answer to how long: the question stays, and is not said to be none", () => {
  const { reply } = talk(undefined, ...asked, "yes");
  expect(reply.kind).toBe("question");
  expect(reply.title).toContain("does not answer my question");
  const { stage } = talk(undefined, ...asked, "yes", "6:30");
  expect(stage?.time).toBe(390);
});

test.each(["no", "nope"])("%s to how long leaves it as it was, and the question is gone", (no) => {
  const { reply } = talk(undefined, ...asked, no);
  expect(reply.title).toBe("Left as it was.");
  expect(talk(undefined, ...asked, no, "6:30").bench.runs).toEqual({});
});

test("no to keep or middle leaves it as it was", () => {
  const { reply, bench } = talk(attic, "start developer at 22", "no");
  expect(reply.title).toBe("Left as it was.");
  expect(bench.runs).toEqual({});
});

test("with nothing asked, no is told that no question is open", () => {
  expect(talk(cellar, "no").reply.title).toBe("No question is open.");
});

test.each(["out", "left", "why", "stop"])(
  "%s is no name for a tank: it is what it says",
  (word) => {
    const learning = "developer was 38.6 before and 37.3 after the pour, tank was 21, 500 ml";
    expect(talk(cellar, learning, word).bench.tankHeat).toEqual({});
    expect(talk(cellar, learning, "heron").bench.tankHeat).toHaveProperty("heron");
  },
);

test("skip to a question that must be answered skips no bath of a run beside it", () => {
  const lines = ["start cellar tank north", "learn a sheet called Pier", "C-41", "millilitres"];
  const more = ["developer, fixer", "1 litre", "skip"];
  const { reply, run } = talk(cellar, ...lines, ...more);
  expect(reply.title).toMatch(/^That one I need/);
  expect(run?.stages.some(({ skipped }) => skipped === true)).toBe(false);
});
