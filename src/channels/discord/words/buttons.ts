import { type APIButtonComponentWithCustomId, ButtonStyle } from "discord-api-types/v10";
import type { Pending } from "../../../conversation/record.ts";
import type { Bench } from "../../../domain/session/bench.ts";
import { liveRuns } from "../../../domain/session/find-run.ts";
import { standing } from "../../../domain/session/hear.ts";
import type { Run } from "../../../domain/session/run.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import { questionKey, runKey } from "./asked.ts";
import { customId } from "./custom-id.ts";

export type Button = APIButtonComponentWithCustomId;
export type Rows = readonly (readonly Button[])[];

/** Two rows of five at most: a wet finger finds them. */
export const A_ROW = 5;
const MOST_OPTIONS = 2 * A_ROW;
const LABEL = 80;

/** A label is plain text: no markup is read in it. */
export const labelled = (text: string): string =>
  text.length <= LABEL ? text : `${text.slice(0, LABEL - 1).toWellFormed()}…`;

export function button(
  benchKey: string,
  word: string,
  asked: string | undefined,
  label: string = word,
  main = false,
): Button {
  return {
    type: 2,
    style: main ? ButtonStyle.Primary : ButtonStyle.Secondary,
    label: labelled(label),
    custom_id: customId.make({ bench: benchKey, word, asked }),
  };
}

/** Can all answers offered stand as buttons? */
export const fitsButtons = ({ ask: { options = [] } }: Pending): boolean =>
  options.length > 0 &&
  options.length <= MOST_OPTIONS &&
  options.every(({ word }) => word.trim() !== "");

/** The answers to the open question, in the order they were offered. */
export function optionButtons(benchKey: string, pending: Pending): Rows {
  if (!fitsButtons(pending)) return [];
  const asked = questionKey(pending);
  const all = (pending.ask.options ?? []).map(({ word }, index) =>
    button(benchKey, `o${index}`, asked, word),
  );
  const wide = all.length <= A_ROW ? A_ROW : Math.ceil(all.length / 2);
  return all.length <= wide ? [all] : [all.slice(0, wide), all.slice(wide)];
}

/** The word a run waits for. */
function mainWord(run: Run, now: Instant): string | undefined {
  switch (standing(run, now).kind) {
    case "planned":
      return "ready";
    case "pouring":
      return "in";
    case "in":
      return "out";
    case "over":
      return undefined;
  }
}

/** What gives time: before a bath is in to put the pour off, in it to silence the beats. */
function calmWord(run: Run, now: Instant): string | undefined {
  const at = standing(run, now);
  if (at.kind === "planned" && at.pourAt === undefined) return undefined;
  if (at.kind === "planned" || (at.kind === "pouring" && !run.quiet)) return "wait";
  return run.quiet ? "go on" : "hold";
}

/** "In" was not heard and is asked for: yes says that it was poured, the moment being past. */
function wasAsked(run: Run, now: Instant): boolean {
  const at = standing(run, now);
  return at.kind === "pouring" && at.openFor >= run.window;
}

/**
 * The words for wet hands at this moment: what each tank waits for and `next`, and below them what
 * is good at any time. Without a run there are none.
 */
export function runButtons(
  bench: Bench,
  benchKey: string,
  now: Instant,
  runs: readonly Run[] = liveRuns(bench),
): Rows {
  const live = runs.filter((run) => mainWord(run, now) !== undefined);
  const [only] = live;
  if (only === undefined) return [];
  const alone = live.length === 1;
  const many = liveRuns(bench).length > 1;
  const mains = live.slice(0, A_ROW).map((run) => {
    const word = mainWord(run, now) ?? "next";
    return button(benchKey, word, runKey(run, now), many ? `${run.tank}: ${word}` : word, true);
  });
  const yes = alone && wasAsked(only, now) ? [button(benchKey, "yes", runKey(only, now))] : [];
  const next = alone ? [button(benchKey, "next", runKey(only, now))] : [];
  const calm = alone ? calmWord(only, now) : undefined;
  const hold = calm === undefined ? [] : [button(benchKey, calm, runKey(only, now))];
  return [
    [...mains, ...yes, ...next],
    [button(benchKey, "again", undefined), ...hold, button(benchKey, "trouble", undefined)],
  ];
}
