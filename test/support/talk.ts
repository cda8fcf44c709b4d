import { expect } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import type { Sheet } from "../../src/domain/process/sheet.ts";
import {
  celsius,
  celsiusDifference,
  instant,
  later,
  seconds,
} from "../../src/domain/units/quantity.ts";
import { valuesOf } from "../../src/reply/reply.ts";

const commands = await loadCommands();
export const noon = instant(Date.parse("2026-11-28T12:00:00Z"));
const origin = { kind: "invented" } as const;

/** Invented figures: a black-and-white sheet with a table, one with none, and a warm bath behind. */
export const cellar: Sheet = {
  id: "cellar",
  name: "cellar",
  called: [],
  process: "black-and-white",
  invented: false,
  baths: [
    {
      name: "developer",
      kind: "developer",
      sense: "exact",
      time: { value: seconds(480), origin },
      temperature: { value: celsius(20), origin },
      tolerance: { value: celsiusDifference(0.2), origin },
      compensation: true,
      push: { kind: "factor", factor: 1.5, origin },
      reuse: { kind: "percent", percent: 10, compounded: false, origin },
      timeLaw: {
        kind: "table",
        rows: [
          { at: celsius(18), time: seconds(580) },
          { at: celsius(20), time: seconds(480) },
          { at: celsius(24), time: seconds(330) },
        ],
        origin,
      },
    },
    {
      name: "fixer",
      kind: "fixer",
      sense: "at least",
      time: { value: seconds(300), origin },
      temperature: { value: celsius(24), origin },
    },
  ],
};
const { timeLaw: _, ...lawless } = cellar.baths[0] ??
  cellar.baths[1] ?? { name: "", kind: "", sense: "exact" };
export const attic: Sheet = { ...cellar, id: "attic", name: "attic", baths: [lawless] };

/** A sentence, or seconds that go by. */
type Line = string | number;

/** Sentences and seconds, one after the other, and how the bench stands after the last. */
export function talk(sheet: Sheet | undefined, ...lines: readonly Line[]) {
  let record = newRecord("t", "UTC");
  if (sheet !== undefined) {
    const bench = { ...record.bench, sheets: { [sheet.id]: sheet }, sheetInUse: sheet.id };
    record = { ...record, bench: { ...bench, degrees: "C" } };
  }
  let now = noon;
  let reply: ReturnType<typeof turn>["reply"] | undefined;
  for (const line of lines) {
    if (typeof line === "number") {
      now = later(now, line);
      continue;
    }
    const after = turn(record, { text: line, who: "me", standing: "owner" }, now, commands);
    record = after.record;
    reply = after.reply;
    expect(reply.say.split(/\s+/).length, `${line}: ${reply.say}`).toBeLessThanOrEqual(12);
  }
  if (reply === undefined) throw new Error("nothing was said");
  const [run] = Object.values(record.bench.runs);
  return { reply, values: valuesOf(reply), bench: record.bench, run, stage: run?.stages[0] };
}

/** One roll in the developer since second 11. */
export const wet = ["start developer one roll of 120", 1, "ready", 10, "in"] as const;
