import { expect, test } from "vitest";
import { reelOf, small } from "../../../test/support/evenings.ts";
import { checkRolls, checkTank, explainLoad, sayLoad } from "./check-load.ts";
import { type Roll, rollSchema } from "./roll.ts";

// The rules are common practice, no source: silver film in blix loses its image, black backing
// spoils a shared developer, one push in a tank, no film whose process nobody knows.
const roll = (change: Partial<Roll> = {}): Roll => ({
  ...rollSchema.parse({ id: "roll-1", number: 1, format: "120", marked: "C-41" }),
  ...change,
});

const colour = { process: "C-41", kinds: ["developer", "blix", "wash", "stabilizer"] };
const split = { process: "c41", kinds: ["developer", "bleach", "fixer"] };
const silver = { process: "Black and white", kinds: ["developer", "stop", "fixer"] };
const movie = { process: "ECN-2", kinds: ["prebath", "developer", "bleach"] };

test.each([
  { film: roll(), baths: colour, kind: undefined },
  { film: roll(), baths: split, kind: undefined },
  { film: roll({ marked: undefined }), baths: colour, kind: "marking-not-stated" },
  { film: roll({ marked: "black-and-white" }), baths: colour, kind: "silver-in-colour" },
  { film: roll({ marked: "black-and-white" }), baths: split, kind: "silver-in-colour" },
  { film: roll({ marked: "black-and-white" }), baths: silver, kind: undefined },
  { film: roll(), baths: silver, kind: "wrong-process" },
  { film: roll({ marked: "E-6" }), baths: colour, kind: "wrong-process" },
  { film: roll({ marked: "ECN-2" }), baths: colour, kind: "black-backed" },
  { film: roll({ marked: "ECN-2", blackBacked: false }), baths: colour, kind: "wrong-process" },
  { film: roll({ marked: "ECN-2" }), baths: movie, kind: undefined },
  { film: roll({ blackBacked: true }), baths: colour, kind: "black-backed" },
  { film: roll(), baths: { process: "kitchen sink", kinds: [] }, kind: "process-not-known" },
  { film: roll({ doneIn: "run-1" }), baths: colour, kind: "already-done" },
  { film: roll({ droppedOn: "2026-11-28" }), baths: colour, kind: "dropped" },
])("$film.marked, backing $film.blackBacked, in $baths.process: $kind", ({ film, baths, kind }) => {
  const checked = checkRolls([film], baths);
  expect(checked.ok ? undefined : checked.error.kind).toBe(kind);
  if (checked.ok) return;
  expect(explainLoad(checked.error)).toMatch(/[.?]$/);
  expect(sayLoad(checked.error).split(/\s+/).length).toBeLessThanOrEqual(12);
});

test("rolls of one push share it, of two are refused", () => {
  const pushed = roll({ id: "roll-2", number: 2, push: 1 });
  expect(checkRolls([pushed, pushed], colour)).toEqual({ ok: true, value: 1 });
  const mixed = checkRolls([roll(), pushed], colour);
  expect(mixed.ok ? "" : explainLoad(mixed.error)).toBe(
    "One tank has one time: roll 1 is not pushed, roll 2 is pushed 1 stop. Load them apart.",
  );
});

test("two 35 mm reels need the solution of both, one roll that of one", () => {
  const tank = { name: "North", layouts: [[reelOf(small, 300), reelOf(small, 300)]] };
  const film = (count: number) => [{ format: "135-36" as const, count }];
  expect(checkTank(tank, film(2))).toEqual({ ok: true, value: 600 });
  expect(checkTank(tank, film(1))).toEqual({ ok: true, value: 300 });
  const full = checkTank(tank, film(3));
  expect(full.ok ? "" : explainLoad(full.error)).toContain("no place for 3 rolls of 135-36");
  expect(checkTank(undefined, film(3))).toEqual({ ok: true, value: undefined });
  expect(checkTank({ name: "South", layouts: [] }, film(3))).toEqual({
    ok: true,
    value: undefined,
  });
});
