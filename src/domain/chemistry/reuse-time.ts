import { showOrigin } from "../origin.ts";
import type { ReuseRule } from "../process/sheet.ts";
import { type Seconds, seconds } from "../units/quantity.ts";
import { plain, showDuration } from "../units/show.ts";

/** What a developer has done before this tank, for the volume its sheet speaks of. */
export type WorkBefore = {
  /** Units of film done. */
  readonly units: number;
  /** Tanks done. */
  readonly batches: number;
};

export type ReuseTime = {
  readonly time: Seconds;
  /** What the rule adds to the sheet's time, s. */
  readonly added: Seconds;
  /** The rule in words, with its origin. */
  readonly how: string;
  /** The table ends before this tank: its last row was taken. */
  readonly beyond: boolean;
};

/**
 * The time of a developer that has done film before, by its sheet's rule. Percent per unit is of
 * the sheet's time for every unit (simple) unless the sheet says compounded. In a table a count
 * between two rows takes the later one. Film of this tank does not count for its own time, except
 * that a table of "this one" begins with the first.
 */
export function reuseTime(base: Seconds, rule: ReuseRule, before: WorkBefore): ReuseTime {
  const origin = showOrigin(rule.origin);
  switch (rule.kind) {
    case "percent": {
      const share = rule.percent / 100;
      const factor = rule.compounded ? (1 + share) ** before.units : 1 + share * before.units;
      const shown = `${plain(rule.percent, 2)} % per roll${rule.compounded ? ", each on top of the last" : " of the sheet's time"}`;
      return {
        ...changed(base, base * factor),
        how: `${shown}, ${plain(before.units, 2)} done: ${showDuration(base)} × ${plain(factor, 3)}; ${origin}`,
        beyond: false,
      };
    }
    case "seconds": {
      const count = rule.per === "unit" ? before.units : before.batches;
      const noun = rule.per === "unit" ? "roll" : "tank";
      return {
        ...changed(base, base + rule.seconds * count),
        how: `${plain(rule.seconds, 1)} s per ${noun}, ${plain(count, 2)} done: ${showDuration(base)} + ${showDuration(seconds(rule.seconds * count))}; ${origin}`,
        beyond: false,
      };
    }
    case "table":
      return fromTable(base, rule, before.units, origin);
  }
}

function fromTable(
  base: Seconds,
  rule: Extract<ReuseRule, { kind: "table" }>,
  done: number,
  origin: string,
): ReuseTime {
  const wanted = rule.means === "done" ? done : done + 1;
  const rows = rule.rows.toSorted((a, b) => a.at - b.at);
  // "Done so far" seldom has a row for none done: that is the sheet's own time.
  if (rule.means === "done" && done <= 1e-9 && (rows[0]?.at ?? 0) > 0) {
    return {
      ...changed(base, base),
      how: `nothing done yet: the sheet's time; ${origin}`,
      beyond: false,
    };
  }
  const row = rows.find(({ at }) => at >= wanted - 1e-9);
  const taken = row ?? rows.at(-1);
  if (taken === undefined) throw new Error("a re-use table has no rows");
  const meaning = rule.means === "done" ? "done so far" : "this roll";
  return {
    ...changed(base, taken.time),
    how: `table of "${meaning}", row ${plain(taken.at, 2)} for ${plain(done, 2)} done before: ${showDuration(taken.time)}; ${origin}`,
    beyond: row === undefined,
  };
}

const changed = (base: number, time: number): { time: Seconds; added: Seconds } => ({
  time: seconds(time),
  added: seconds(time - base),
});
