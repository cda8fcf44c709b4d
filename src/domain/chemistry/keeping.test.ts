import { expect, test } from "vitest";
import { developerOf } from "../../../test/support/bottles.ts";
import { keepingRows } from "../../data/keeping.ts";
import { fillLevels } from "./bottle.ts";
import { defaultKeeping, keepingOf } from "./keeping.ts";

const row = (
  kind: string,
  role: "working" | "stock" | "concentrate" = "working",
  process?: string,
) => defaultKeeping(keepingRows, kind, role, process);

test.each([
  {
    says: "working fixer at most two months: The Darkroom Cookbook, 3rd ed., p. 108 (read)",
    found: row("fixer")?.days.full,
    days: 60,
  },
  {
    says: "D-76 stock six months full: J-78 (from memory)",
    found: row("developer", "stock", "black-and-white")?.days.full,
    days: 180,
  },
  {
    says: "D-76 stock two months half full: J-78 (from memory)",
    found: row("developer", "stock", "black-and-white")?.days.half,
    days: 60,
  },
  {
    says: "colour developer six weeks full: Z-131 (from memory, low)",
    found: row("developer", "working", "C-41")?.days.full,
    days: 42,
  },
  {
    says: "colour developer four weeks part full: Z-131 (from memory, low)",
    found: row("colour developer", "working", "C-41")?.days["some air"],
    days: 28,
  },
  {
    says: "stabilizer about eight weeks: Z-131 (from memory, low)",
    found: row("stabilizer")?.days.full,
    days: 56,
  },
])("$says", ({ found, days }) => {
  expect(found).toBe(days);
});

test("more air never keeps longer", () => {
  for (const { days } of keepingRows) {
    for (const [index, level] of fillLevels.entries()) {
      const fuller = fillLevels[index - 1];
      if (fuller !== undefined) expect(days[level]).toBeLessThanOrEqual(days[fuller]);
    }
  }
});

test("of several that fit, the shortest is taken; a bath without a figure has none", () => {
  expect(row("developer")?.process).toBe("C-41");
  expect(row("developer", "working", "E-6")).toBeUndefined();
  expect(row("bleach")).toBeUndefined();
  expect(row("fixer", "concentrate")).toBeUndefined();
  expect(keepingOf(undefined, undefined)).toBeUndefined();
});

test("a default is always an estimate and names its origin", () => {
  const kept = keepingOf(undefined, row("blix"));
  expect(kept?.estimated).toBe(true);
  expect(kept?.origin.kind).toBe("from memory");
  expect(kept?.how).toContain("estimate");
});

test("the sheet comes first; part full is estimated from it in our proportion", () => {
  const kept = keepingOf(developerOf(), row("developer", "working", "C-41"));
  expect(kept?.days.full).toBe(40);
  expect(kept?.days["some air"]).toBeCloseTo((40 * 28) / 42, 9);
  expect(kept?.origin.kind).toBe("invented");
  expect(kept?.how).toContain("estimated");
});

test("where the sheet has a part-full figure, that one holds", () => {
  const part = { value: 25, origin: { kind: "sheet" as const, source: "invented" } };
  const kept = keepingOf(developerOf({ keepsPart: part }), row("developer", "working", "C-41"));
  expect(kept?.days["some air"]).toBeCloseTo(25, 9);
  expect(kept?.days.half).toBeCloseTo(25, 9);
  expect(kept?.days.less).toBeCloseTo(12.5, 9);
  expect(kept?.estimated).toBe(false);
});

test("a sheet's figure for a bath we have no row for is shortened harshly", () => {
  const days = keepingOf(developerOf(), undefined)?.days;
  expect(days?.full).toBe(40);
  expect(days?.less).toBe(5);
});
