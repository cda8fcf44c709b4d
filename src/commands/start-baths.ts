import { planSheet } from "../domain/process/plan-sheet.ts";
import type { Bath, Sheet } from "../domain/process/sheet.ts";
import { type Seconds, seconds } from "../domain/units/quantity.ts";
import { type Reply, refuse } from "../reply/reply.ts";
import { askFor } from "./define-command.ts";
import { bathOn } from "./sheets.ts";

type Wanted = {
  readonly solution?: string | undefined;
  readonly duration?: number | undefined;
  /** Times the user gave for baths whose sheet has none, s, by the bath's name. */
  readonly times?: Readonly<Record<string, number>> | undefined;
  /** The bath the open question about a time is about. */
  readonly asking?: string | undefined;
};

export type BathsMeant = {
  readonly baths: readonly Bath[];
  /** Times told for this run, by the bath's name. */
  readonly times: Readonly<Record<string, Seconds>>;
};

/**
 * The baths a sentence means: one, or all of a sheet. A bath is never left out because its time is
 * not known: one question for each such bath.
 */
export function bathsMeant(sheet: Sheet, wanted: Wanted): BathsMeant | { readonly reply: Reply } {
  if (wanted.solution !== undefined) return oneBath(sheet, wanted, wanted.solution);
  const told = { ...wanted.times };
  if (wanted.asking !== undefined && wanted.duration !== undefined) {
    told[wanted.asking] = wanted.duration;
  }
  const times = Object.fromEntries(
    Object.entries(told).map(([name, time]) => [name, seconds(time)]),
  );
  const planned = planSheet(sheet, { times });
  if (planned.kind === "no-times") {
    return {
      reply: refuse(
        "no-times",
        `The ${sheet.name} sheet is for mixing and has no times. Use another: use sheet colour negative.`,
        { say: "That sheet has no times. Use another." },
      ),
    };
  }
  const missing = planned.kind === "ask-times" ? planned.baths[0] : undefined;
  if (missing !== undefined) {
    const { duration: _, ...rest } = wanted;
    return {
      reply: askFor(
        "start",
        { ...rest, times: told, asking: missing.name },
        "duration",
        `The ${sheet.name} sheet has no time for ${missing.name}. How long does yours say?`,
        undefined,
        { facts: { asking: missing.name } },
      ),
    };
  }
  return { baths: sheet.baths, times };
}

function oneBath(
  sheet: Sheet,
  wanted: Wanted,
  solution: string,
): BathsMeant | { readonly reply: Reply } {
  const found = bathOn(sheet, solution);
  if (found !== undefined && "several" in found) {
    const names = found.several.map(({ name }) => name);
    const title = `Which ${solution}: ${names.join(" or ")}?`;
    return { reply: askFor("start", wanted, "solution", title, names) };
  }
  const bath: Bath | undefined = found?.bath;
  const told = wanted.duration === undefined ? undefined : seconds(wanted.duration);
  const name = bath?.name ?? solution;
  if (bath?.time === undefined && told === undefined) {
    const has = bath === undefined ? `no ${solution}` : `no time for ${name}`;
    return {
      reply: askFor(
        "start",
        wanted,
        "duration",
        `The ${sheet.name} sheet has ${has}. How long does yours say?`,
        undefined,
        { facts: { asking: name } },
      ),
    };
  }
  // A bath the sheet does not know can be timed all the same when the user gives its time.
  const unknown: Bath = {
    name: solution,
    kind: solution,
    sense: solution.endsWith("developer") ? "exact" : "at least",
  };
  return { baths: [bath ?? unknown], times: told === undefined ? {} : { [name]: told } };
}
