import { expect, test } from "vitest";
import { judge } from "./judge.ts";

const NOW = 1_800_000_000_000;
const beat = (age: number) => JSON.stringify({ at: NOW - age, every: 10_000 });

test.each([
  { text: beat(0), well: true, says: "0 s ago" },
  { text: beat(9_000), well: true, says: "9 s ago" },
  { text: beat(30_000), well: true, says: "30 s ago" },
  { text: beat(30_001), well: false, says: "Stuck or killed" },
  { text: beat(-5_000), well: true, says: "5 s ago" },
  { text: beat(-3_600_000), well: false, says: "3600 s ahead and does not move" },
  { text: undefined, well: false, says: "Not running" },
  { text: "", well: false, says: "cannot be read" },
  { text: "[]", well: false, says: "cannot be read" },
  { text: '{"at":1e400,"every":1}', well: false, says: "cannot be read" },
])("$text", ({ text, well, says }) => {
  const judged = judge(text, NOW);
  expect(judged.well).toBe(well);
  expect(judged.says).toContain(says);
});
