import { expect, test } from "vitest";
import { sessionOf } from "../../src/commands/session-of.ts";
import { sessionLines } from "../../src/commands/session-text.ts";
import { forSharing } from "../../src/domain/record/for-sharing.ts";
import type { Bench } from "../../src/domain/session/bench.ts";
import { touchedBy } from "../../src/domain/session/touched.ts";
import { at, benchWith, evening, runOf, stageOf } from "../support/runs.ts";

const run = runOf([stageOf()], { id: "run-9", tank: "Zdenka's drum" });
const shared = (bench: Bench): string => {
  const session = forSharing(sessionOf(bench, run));
  return `${JSON.stringify(session)}\n${sessionLines(session).join("\n")}`;
};
const old = runOf([stageOf({ inBy: "Zdenka" })], { by: "Ines" });
const past = { id: "run-1", title: "t", tank: "North", plannedAt: evening };
const lines: string[] = [];

test("a name nobody has on this bench stays what it is: a label", () => {
  expect(shared(benchWith(run))).toContain("Zdenka");
});

test.each<[string, Partial<Bench>]>([
  ["poured a run that stands in a file", { pastRuns: [{ ...past, touched: touchedBy(old) }] }],
  ["was handed a shift", { handovers: [{ at: at(0), from: "Ines", to: "Zdenka", lines }] }],
  [
    "has signed something in",
    { inUse: { "tank x": { kind: "tank", name: "x", by: "Zdenka", since: at(0) } } },
  ],
  ["wrote a note", { notes: [{ at: at(0), by: "Zdenka", text: "wet" }] }],
])("a person who %s is taken out of every label", (_, change) => {
  expect(shared({ ...benchWith(run), ...change })).not.toContain("Zdenka");
});

test("a name that lost its apostrophe on the way is taken out as well", () => {
  const spoken = runOf([stageOf()], { id: "run-9", tank: "Zdenkas tub", by: "Zdenka" });
  const bench = { ...benchWith(spoken), notes: [{ at: at(0), by: "Zdenka", text: "wet" }] };
  const session = forSharing(sessionOf(bench, spoken));
  expect(session.tank).toBe("(name left out) tub");
});
