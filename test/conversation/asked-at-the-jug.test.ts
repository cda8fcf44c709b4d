import { expect, test } from "vitest";
import { talk } from "../support/talk.ts";

/** The demonstration sheet's litre of developer, invented: 640 mL, then A 110, B 70, C 50. */
const mixing = ["use sheet demo", "mix 1 litre of developer"] as const;

test("how much of a part: the figure of the mix that is open, and what is due stays due", () => {
  const { reply, values, bench } = talk(undefined, ...mixing, "how much b");
  expect(reply.say).toBe("Part B, 70 mL.");
  expect(values).toMatchObject({ ml: 70, named: "B", done: false });
  expect(reply.lines.join(" ")).toContain("Now start water, 640 mL");
  expect(bench.mixing?.done).toBe(0);
});

test("how much water: the start water, and the mark once the parts are in", () => {
  expect(talk(undefined, ...mixing, "how much water").values.ml).toBe(640);
  const parts = ["water in", "a in", "clear", "b in", "clear", "c in", "clear"];
  const { reply } = talk(undefined, ...mixing, ...parts, "how much water");
  expect(reply.title).toBe("Water up TO the 1 L mark.");
});

test("how much goes in: what is due; a part that is in is said to be", () => {
  expect(talk(undefined, ...mixing, "water in", "how much goes in").values.ml).toBe(110);
  const { reply } = talk(undefined, ...mixing, "water in", "a in", "how much a");
  expect(reply.title).toBe("Part A, 110 mL, and it is in already.");
});

test("a part the bath does not have is refused, and with nothing mixed nothing is made up", () => {
  expect(talk(undefined, ...mixing, "how much d").reply.facts.reason).toBe("no-such-part");
  expect(talk(undefined, "how much b").reply.facts.reason).toBe("not-mixing");
});

test.each(["oops wrong part", "i put c in by mistake"])(
  "%s: stop, not on film, and what to do",
  (said) => {
    for (const before of [[], mixing]) {
      const { reply, bench } = talk(undefined, ...before, said);
      expect(reply.say).toBe("Stop. Nothing else goes in. Do not use it on film.");
      expect(reply.lines.join(" ")).toContain("say stop mixing");
      expect(bench.mixing?.done ?? 0).toBe(0);
    }
  },
);

test("waters in is the water, not a part of that name", () => {
  expect(talk(undefined, ...mixing, "waters in").bench.mixing?.done).toBe(1);
});

test("topped up with so much: so much more of the same, once it is said to be the same", () => {
  const acorn = ["bottle developer 1 litre mixed today", "poured 300 ml from acorn"] as const;
  const { reply } = talk(undefined, ...acorn, "topped up acorn with 50 ml");
  expect(reply.title).toContain("50 mL more of the very same developer");
  const before = talk(undefined, ...acorn).bench.bottles;
  const after = talk(undefined, ...acorn, "topped up acorn with 50 ml", "yes").bench.bottles;
  const contents = (all: typeof before) => Object.values(all)[0]?.contents;
  expect(contents(before)).toBe(700);
  expect(contents(after)).toBe(750);
  const much = talk(undefined, ...acorn, "topped up acorn with 2 litres").reply;
  expect(much.facts.reason).toBe("no-room");
});

test("few choices of a time are said, and chosen by their place", () => {
  const when = "remind me next sat at 10 to bin the blix";
  const { reply } = talk(undefined, when);
  expect(reply.say).toBe("Saturday 5 December or Saturday 12 December, 10 am or 10 pm?");
  const { values } = talk(undefined, when, "the second");
  expect(values.due).toBe("2026-12-05T22:00:00Z");
});
