import { expect, test } from "vitest";
import { readWhole } from "../../../test/support/reading.ts";
import { readBath } from "./bath.ts";

test.each([
  ["dev", "developer"],
  ["the developer", "developer"],
  ["developer bath", "developer"],
  ["color developer", "colour developer"],
  ["first dev", "first developer"],
  ["stop", "stop"],
  ["stop bath", "stop"],
  ["bleach", "bleach"],
  ["bleach fix", "blix"],
  ["bleach-fix", "blix"],
  ["blix", "blix"],
  ["fix", "fixer"],
  ["fixing bath", "fixer"],
  ["rinse", "wash"],
  ["water wash", "wash"],
  ["final rinse", "stabilizer"],
  ["stabiliser", "stabilizer"],
  ["stab", "stabilizer"],
  ["prebath", "prebath"],
  ["pre-soak", "prewash"],
  ["pre wash", "prewash"],
  ["reversal bath", "reversal"],
  ["pre-bleach", "conditioner"],
  ["wetting agent", "wetting agent"],
  ["hypo clear", "hypo clear"],
  ["bath", "nothing"],
  ["north", "nothing"],
])("%j is %s", (phrase, kind) => {
  expect(readWhole(readBath, phrase)).toBe(kind);
});
