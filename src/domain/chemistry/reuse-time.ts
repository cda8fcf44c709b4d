import { showOrigin } from "../origin.ts";
import type { ReuseRule } from "../process/sheet.ts";
import { type Seconds, seconds } from "../units/quantity.ts";
import { plain, showDuration, showUnits } from "../units/show.ts";
import type { Promised } from "./work-before.ts";

/** What a developer has done before this tank, for the volume its sheet speaks of. */
export type WorkBefore = {
  /** Units of film done. */
  readonly units: number;
  /** Tanks done. */
  readonly batches: number;
  /** Some of the tanks were never counted: one for each unit was taken. */
  readonly tanksAssumed?: boolean;
  /** Film of this tank, in the same units; missing: not known, and nothing is said of its last roll. */
  readonly load?: number;
  /** Film of other runs that pour first; it is in `units` and `batches` already. */
  readonly first?: readonly Promised[];
};

export type ReuseTime = {
  readonly time: Seconds;
  /** What the rule adds to the sheet's time, s. */
  readonly added: Seconds;
  /** The rule in words, with its origin. */
  readonly how: string;
  /** The table ends before the last film of this tank. */
  readonly beyond: boolean;
};

/**
 * The time of a developer that has done film before, by its sheet's rule. Percent per unit is of
 * the sheet's time for every unit (simple) unless the sheet says compounded. In a table a count
 * between two rows takes the later one. Film of this tank does not count for its own time, except
 * that a table of "this one" begins with the first.
 */
export function reuseTime(base: Seconds, rule: ReuseRule, before: WorkBefore): ReuseTime {
  const found = byRule(base, rule, before);
  const { first = [] } = before;
  if (first.length === 0) return found;
  const whose = first.map(({ tank, units }) => `${tank}'s ${showUnits(units)}`).join(" and ");
  return { ...found, how: `after ${whose}: ${found.how}` };
}

function byRule(base: Seconds, rule: ReuseRule, before: WorkBefore): ReuseTime {
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
      const assumed =
        rule.per === "batch" && before.tanksAssumed === true
          ? " (tanks not counted: one for each roll, the longer time)"
          : "";
      return {
        ...changed(base, base + rule.seconds * count),
        how: `${plain(rule.seconds, 1)} s per ${noun}, ${plain(count, 2)} done${assumed}: ${showDuration(base)} + ${showDuration(seconds(rule.seconds * count))}; ${origin}`,
        beyond: false,
      };
    }
    case "table":
      return fromTable(base, rule, before, origin);
  }
}

function fromTable(
  base: Seconds,
  rule: Extract<ReuseRule, { kind: "table" }>,
  { units: done, load = 0 }: WorkBefore,
  origin: string,
): ReuseTime {
  const wanted = rule.means === "done" ? done : done + 1;
  const rows = rule.rows.toSorted((a, b) => a.at - b.at);
  // The last roll of the tank is the nth film of the bath, or has so many done before it.
  const atEnd = load > 1 ? wanted + load - 1 : wanted;
  const beyond = atEnd > (rows.at(-1)?.at ?? 0) + 1e-9;
  // "Done so far" seldom has a row for none done: that is the sheet's own time.
  if (rule.means === "done" && done <= 1e-9 && (rows[0]?.at ?? 0) > 0) {
    return {
      ...changed(base, base),
      how: `nothing done yet: the sheet's time; ${origin}`,
      beyond,
    };
  }
  const row = rows.find(({ at }) => at >= wanted - 1e-9);
  const taken = row ?? rows.at(-1);
  if (taken === undefined) throw new Error("a re-use table has no rows");
  const meaning = rule.means === "done" ? "done so far" : "this roll";
  return {
    ...changed(base, taken.time),
    how: `table of "${meaning}", row ${plain(taken.at, 2)} for ${plain(done, 2)} done before: ${showDuration(taken.time)}; ${origin}`,
    beyond,
  };
}

const changed = (base: number, time: number): { time: Seconds; added: Seconds } => ({
  time: seconds(time),
  added: seconds(time - base),
});
