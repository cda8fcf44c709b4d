import { expect, test } from "vitest";
import { instant } from "../../domain/units/quantity.ts";
import { answer } from "../../reply/reply.ts";
import { renderJson, renderMoment, renderText } from "./render.ts";

/** Clears the screen and renames the window (ECMA-48, 8.3.39; OSC 0 as terminals have it, from memory). */
const hostile = "\u001b[2J\u001b]0;owned\u0007Acorn\u009b31m\u202e";
const reply = answer({
  title: hostile,
  say: hostile,
  lines: [hostile, "two\nlines"],
  cautions: [hostile],
  facts: { bottle: hostile, all: [hostile] },
  ask: { command: "x", fields: {}, slot: "y", options: [{ word: hostile, value: 1 }] },
});
const control = /(?!\n)\p{Cc}|\\u00[0189]|\u202e/u;

test.each(["bench", "wet", "dark"] as const)("as text in %s mode", (mode) => {
  const text = renderText(reply, mode);
  expect(text).not.toMatch(control);
  expect(text).toContain("Acorn");
});

test("as text a line still ends where it ended", () => {
  expect(renderText(reply, "bench")).toContain("two\nlines");
});

test("as JSON", () => {
  const line = renderJson(reply, instant(0));
  expect(line).not.toMatch(control);
  expect(JSON.parse(line).values.bottle).toBe("[2J]0;ownedAcorn31m");
});

test("in the prompt", () => {
  const moment = { kind: "running", tank: hostile, bath: hostile, left_s: 3 } as const;
  expect(renderMoment(moment)).not.toMatch(control);
});
