import { showOrigin } from "../origin.ts";
import { err, ok, type Result } from "../result.ts";
import { type Seconds, seconds } from "../units/quantity.ts";
import { plain, showDuration } from "../units/show.ts";
import type { PushRule } from "./sheet.ts";

export type PushTime = {
  readonly time: Seconds;
  /** What the push adds, s; negative for a pull. */
  readonly added: Seconds;
  /** The rule in words, with its origin. */
  readonly how: string;
};

export type PushTrouble =
  | { readonly kind: "not-in-table"; readonly stops: number; readonly known: readonly number[] }
  | { readonly kind: "no-time-left"; readonly stops: number };

/**
 * A developer's time pushed by some stops, pulled where they are negative.
 *
 * @param time   the time so far: the sheet's, with re-use
 * @param base   the sheet's own time, which a table's rows are meant for: its difference is added
 * @param stops  a factor is taken once for each stop
 */
export function pushTime(
  time: Seconds,
  base: Seconds,
  rule: PushRule,
  stops: number,
): Result<PushTime, PushTrouble> {
  const origin = showOrigin(rule.origin);
  const name = showStops(stops);
  switch (rule.kind) {
    case "seconds": {
      const by = rule.seconds * stops;
      return made(
        time,
        time + by,
        stops,
        `${name}: ${plain(rule.seconds, 1)} s per stop; ${origin}`,
      );
    }
    case "factor": {
      const factor = rule.factor ** stops;
      return made(
        time,
        time * factor,
        stops,
        `${name}: × ${plain(rule.factor, 3)} for each stop; ${origin}`,
      );
    }
    case "table": {
      if (stops === 0) return made(time, time, stops, `${name}: ${origin}`);
      const row = rule.rows.find(({ at }) => at === stops);
      if (row === undefined) {
        return err({ kind: "not-in-table", stops, known: rule.rows.map(({ at }) => at) });
      }
      return made(
        time,
        time + (row.time - base),
        stops,
        `${name}: table, ${showDuration(row.time)} instead of ${showDuration(base)}; ${origin}`,
      );
    }
  }
}

function made(
  from: Seconds,
  to: number,
  stops: number,
  how: string,
): Result<PushTime, PushTrouble> {
  if (to <= 0) return err({ kind: "no-time-left", stops });
  return ok({ time: seconds(to), added: seconds(to - from), how });
}

export function explainPush(trouble: PushTrouble): string {
  switch (trouble.kind) {
    case "not-in-table":
      return `Your sheet's push table has no ${showStops(trouble.stops)}. It has ${trouble.known.map(showStops).join(", ")}: give one of these, or say the time yourself.`;
    case "no-time-left":
      return `${showStops(trouble.stops)} leaves no time at all. Pull less, or say the time yourself.`;
  }
}

export function showStops(stops: number): string {
  if (stops === 0) return "no push";
  const size = Math.abs(stops);
  return `${stops > 0 ? "push" : "pull"} ${plain(size, 2)}`;
}

/** One tank has one time, so all its rolls need the same push. */
export const mixedPushes = (stops: readonly number[]): boolean => new Set(stops).size > 1;
