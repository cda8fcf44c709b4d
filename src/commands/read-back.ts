import { filmUnits, rollCount } from "../domain/film/load.ts";
import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Run } from "../domain/session/run.ts";
import { type Units, units } from "../domain/units/quantity.ts";
import { plain } from "../domain/units/show.ts";
import type { Ask } from "../reply/reply.ts";

/** Film counted for a bottle by ended runs whose count nobody has confirmed. */
export function unconfirmed(bench: Bench, bottle: string): Units {
  let sum = 0;
  for (const run of Object.values(bench.runs)) {
    if (run.endedAt === undefined || run.countConfirmed === true) continue;
    for (const entry of run.counted) {
      if (entry.bottle === bottle) sum += entry.after - entry.before;
    }
  }
  return units(sum);
}

/**
 * The one question at the end of a run: what it counted, bottle by bottle. Nothing when no bottle
 * was counted or the count has been confirmed.
 */
export function readBack(
  bench: Bench,
  run: Run,
): { readonly title: string; readonly say: string; readonly ask: Ask } | undefined {
  if (run.counted.length === 0 || run.countConfirmed === true) return undefined;
  const totals = run.counted.flatMap(({ bottle, after }) => {
    const found = ownValue(bench.bottles, bottle);
    return found === undefined ? [] : [{ name: found.name, after }];
  });
  const first = totals[0];
  if (first === undefined) return undefined;
  const film = filmWords(run);
  const names = totals.map(({ name }) => name);
  const same = totals.every(({ after }) => after === first.after);
  const inAll = same
    ? `${plain(first.after, 2)} in all${totals.length > 1 ? " each" : ""}`
    : `in all ${totals.map(({ name, after }) => `${name} ${plain(after, 2)}`).join(", ")}`;
  return {
    title: `${film} for ${joined(names)} tonight, ${inAll}. Right?`,
    say: `${film} for ${first.name}, ${plain(first.after, 2)} in all. Right?`,
    ask: {
      command: "count",
      fields: { run: run.id },
      slot: "sure",
      options: [
        { word: "yes", value: true },
        { word: "no", value: false },
      ],
    },
  };
}

/** "2 rolls", "4 sheets", with the units where they are another number. */
function filmWords(run: Run): string {
  const count = rollCount(run.film);
  const load = filmUnits(run.film);
  const sheets = run.film.every(({ format }) => format.includes("x"));
  const noun = sheets ? "sheet" : "roll";
  const other = Math.abs(load - count) > 1e-9 ? ` (${plain(load, 2)} units)` : "";
  return `${count} ${noun}${count === 1 ? "" : "s"}${other}`;
}

const joined = (names: readonly string[]): string =>
  names.length < 2
    ? names.join("")
    : `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`;
