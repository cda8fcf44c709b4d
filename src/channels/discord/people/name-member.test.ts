import { expect, test } from "vitest";
import { nameMember } from "./name-member.ts";

test.each([
  { display: "Inês Vale", taken: [], name: "Inês Vale" },
  { display: "Inês Vale", taken: ["inês vale", "Inês Vale 2"], name: "Inês Vale 3" },
  { display: "**@everyone** \u202Eevil\u200B", taken: [], name: "everyone evil" },
  { display: "🎞️🎞️", taken: ["member"], name: "member 2" },
  { display: "x".repeat(200), taken: [], name: "x".repeat(24) },
])("$display beside $taken is $name", ({ display, taken, name }) => {
  expect(nameMember(display, taken)).toBe(name);
});
