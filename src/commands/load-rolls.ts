import { z } from "zod";
import { contentsOf } from "../domain/chemistry/bottle.ts";
import {
  checkRolls,
  checkTank,
  explainLoad,
  type LoadTrouble,
  sayLoad,
} from "../domain/film/check-load.ts";
import { togetherOf } from "../domain/film/load.ts";
import { callRoll, type Roll, shortRoll } from "../domain/film/roll.ts";
import { ownValue } from "../domain/own-value.ts";
import type { Run } from "../domain/session/run.ts";
import type { Millilitres } from "../domain/units/quantity.ts";
import { showVolume } from "../domain/units/show.ts";
import { type Reply, refuse } from "../reply/reply.ts";
import { type Handling, type Outcome, toJson } from "./define-command.ts";
import type { SaidFilm } from "./film-load.ts";
import { ownTank } from "./own-tank.ts";
import { isSettled, rollsMeant } from "./roll-text.ts";
import { bathOn, sheetFor } from "./sheets.ts";

export const rollsField = z.object({ ids: z.array(z.string()), unknown: z.array(z.string()) });

export const loadValues = {
  rolls: "numbers of the rolls of the list that were loaded; missing when none was named",
  fill_ml: "solution that covers the load, mL, by its reels; missing when the tank's are not known",
};

type Wanted = {
  readonly rolls?: z.output<typeof rollsField> | undefined;
  readonly film?: SaidFilm | undefined;
  readonly solution?: string | undefined;
  readonly sheet?: string | undefined;
  readonly tank?: string | undefined;
  readonly push?: number | undefined;
};

/**
 * Starts a run that takes rolls of the list: they are checked against its baths and each other
 * before anything is planned, and the run remembers them. The tank's reels are checked for any
 * film, where they are known.
 */
export function startLoaded<W extends Wanted>(
  at: Handling,
  wanted: W,
  begin: (at: Handling, wanted: W) => Reply | Outcome,
): Reply | Outcome {
  if (wanted.rolls === undefined) return checkedFill(at, begin(at, wanted), []);
  const found = rollsMeant(at.bench, wanted.rolls);
  if ("reply" in found) return found.reply;
  const { rolls } = found;
  const held = rolls.map((roll) => isSettled(at.bench, roll)).find((one) => one !== undefined);
  if (held !== undefined) return held;
  const checked = checkRolls(rolls, bathsOf(at, wanted));
  if (!checked.ok) return refusal(checked.error);
  const film = togetherOf(rolls.map(({ format }) => format));
  const tank = wanted.tank === undefined ? undefined : ownTank(at.bench, wanted.tank);
  const fits = checkTank(tank, film);
  if (!fits.ok) return refusal(fits.error);
  const push = wanted.push ?? checked.value;
  const settled: W = { ...wanted, film: [...film], ...(push === 0 ? {} : { push }) };
  return checkedFill(at, begin(at, settled), rolls);
}

function bathsOf({ bench }: Handling, { sheet: named, solution }: Wanted) {
  const sheet = sheetFor(bench, "process", named)?.sheet;
  if (sheet === undefined) return { process: "", kinds: [] };
  const alone = solution === undefined ? undefined : bathOn(sheet, solution);
  const kinds =
    solution === undefined
      ? sheet.baths.map(({ kind }) => kind)
      : alone !== undefined && "bath" in alone
        ? [alone.bath.kind]
        : [solution];
  return { process: sheet.process, kinds };
}

/** What was planned, unless the tank or a bottle is too small for it. */
function checkedFill(
  at: Handling,
  outcome: Reply | Outcome,
  rolls: readonly Roll[],
): Reply | Outcome {
  if (!("reply" in outcome) || outcome.bench === undefined) return outcome;
  const { bench, reply } = outcome;
  const run = ownValue(bench.runs, String(reply.facts.run));
  if (run === undefined) return outcome;
  const fits = checkTank(ownTank(at.bench, run.tank), run.film);
  if (!fits.ok) return refusal(fits.error);
  const volume = fits.value;
  const short = volume === undefined ? undefined : tooLittle(at, run, volume);
  if (short !== undefined) return short;
  if (volume === undefined && rolls.length === 0) return outcome;
  const loaded = rolls.length === 0 ? run : { ...run, rolls: rolls.map(({ id }) => id) };
  return {
    ...outcome,
    bench: { ...bench, runs: { ...bench.runs, [run.id]: loaded } },
    reply: {
      ...reply,
      lines: [
        ...reply.lines,
        ...(rolls.length === 0 ? [] : [`Loaded: ${rolls.map(callRoll).join(", ")}.`]),
        ...(volume === undefined ? [] : [`Fill: ${showVolume(volume)}, by the reels with film.`]),
      ],
      facts: {
        ...reply.facts,
        ...(rolls.length === 0 ? {} : { rolls: rolls.map(({ number }) => number) }),
      },
      figures: {
        ...reply.figures,
        ...(volume === undefined
          ? {}
          : {
              fill_ml: {
                value: volume,
                origin: { kind: "computed" as const, source: "sum over the reels with film" },
              },
            }),
      },
    },
  };
}

/** Film that stands out of its bath is lost: a bottle that holds less than the load needs is no bottle for it. */
function tooLittle({ bench }: Handling, run: Run, volume: Millilitres): Reply | undefined {
  const bottle = run.stages
    .flatMap((stage) =>
      stage.bottle === undefined ? [] : (ownValue(bench.bottles, stage.bottle) ?? []),
    )
    .find((one) => contentsOf(one) < volume);
  if (bottle === undefined) return undefined;
  return refuse(
    "too-little-solution",
    `This load needs ${showVolume(volume)} and ${bottle.name} holds ${showVolume(contentsOf(bottle))}: the film would stand out of it. Load less.`,
    {
      say: `${bottle.name} holds too little for this load.`,
      facts: { bottle: bottle.name, needs_ml: volume, holds_ml: contentsOf(bottle) },
    },
  );
}

/** A load that may not be; where only the marking is missing, the question stays open. */
function refusal(trouble: LoadTrouble): Reply {
  const roll = "roll" in trouble ? trouble.roll : undefined;
  const ask =
    trouble.kind === "marking-not-stated"
      ? {
          command: "mark",
          fields: toJson({ rolls: { ids: [trouble.roll.id], unknown: [] } }),
          slot: "traits",
        }
      : undefined;
  return refuse(trouble.kind, explainLoad(trouble), {
    say: sayLoad(trouble),
    ask,
    facts: roll === undefined ? {} : { roll: roll.number, named: shortRoll(roll) },
  });
}
