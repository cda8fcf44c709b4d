import { describe, expect, test } from "vitest";
import { cellar, talk } from "../support/talk.ts";

// Only film that met a bottle after something got into it can have met that: logic, no source.
const DAY = 24 * 3600;
const shelf = ["bottle developer 1 litre mixed today", "bottle fixer 1 litre mixed today"] as const;
const names = (() => {
  const { bench } = talk(cellar, ...shelf);
  const [developer = "", fixer = ""] = Object.values(bench.bottles).map(({ name }) => name);
  return { developer, fixer };
})();
const run = [
  `start developer one roll of 120 tank north from ${names.developer}`,
  1,
  "ready",
  10,
  "in",
  480,
  "out",
  "yes",
] as const;
const runs = (...lines: readonly (string | number)[]) => {
  const { reply, values, bench } = talk(cellar, ...shelf, ...lines);
  return {
    runs: values.runs as readonly unknown[],
    all: [reply.title, ...reply.lines].join("\n"),
    bench,
  };
};
const spoilt = `fixer went into ${names.developer}`;

describe("film that met a bottle before it was spoilt is not accused", () => {
  test("days later, with no moment told, it is now: the earlier run is not touched, and that is said", () => {
    const told = runs(...run, 12 * DAY, spoilt);
    expect(told.runs).toEqual([]);
    expect(told.all).toMatch(/touched no run that I know of since/);
    expect(told.all).toMatch(
      /1 earlier run was out before and not touched, unless it happened earlier/,
    );
  });

  test("the list asked for again later says the same", () => {
    expect(runs(...run, 12 * DAY, spoilt, DAY, `recall ${names.developer}`).runs).toEqual([]);
  });

  test("a run after it is touched", () => {
    const after = [spoilt, 60, ...run.slice(0, 1), "yes", ...run.slice(1)] as const;
    expect(runs(...after, 600, `recall ${names.developer}`).runs).toHaveLength(1);
  });

  test("film still in the bath is touched", () => {
    expect(runs(...run.slice(0, 5), 60, spoilt).runs).toHaveLength(1);
  });

  test("told of a time before the run the run is touched, also when it is told afterwards", () => {
    expect(runs(...run, 2 * DAY, `${spoilt} three days ago`).runs).toHaveLength(1);
    expect(runs(...run, 2 * DAY, spoilt, `${spoilt} three days ago`).runs).toHaveLength(1);
    expect(runs(...run, 2 * DAY, `${spoilt} one hour ago`).runs).toEqual([]);
  });

  test("a bottle that is just bad has no moment: every run it met is listed", () => {
    expect(runs(...run, 12 * DAY, `${names.developer} is contaminated`).runs).toHaveLength(1);
  });
});

test("without a bottle nothing is asked that cannot be answered, and what to do is told", () => {
  const { reply } = talk(cellar, "i poured developer into the blix");
  expect(reply.kind).toBe("refusal");
  expect(reply.ask).toBeUndefined();
  expect([reply.title, ...reply.lines].join(" ")).toMatch(/set it apart/);
  expect(talk(cellar, "i poured developer into the blix", "left").reply.title).toBe(
    "No clock is running.",
  );
});

test.each([
  `i poured ${names.developer} into ${names.fixer}`,
  `${names.developer} into ${names.fixer}`,
  `${names.fixer} has developer in it`,
  "i put the developer back in the fixer bottle",
])("%s marks the bottle", (said) => {
  const { bench } = runs(said);
  const marked = Object.values(bench.bottles).filter(({ suspect }) => suspect !== undefined);
  expect(marked.map(({ name }) => name)).toEqual([names.fixer]);
});
