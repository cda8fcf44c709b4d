import { capital } from "../domain/capital.ts";
import type { Bench } from "../domain/session/bench.ts";
import {
  dueStep,
  isMixed,
  type Mixing,
  type MixStep,
  type WalkTrouble,
} from "../domain/session/mixing-walk.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { showCelsius, showMass, showTemperature, showVolume } from "../domain/units/show.ts";
import { answer, type Reply, refuse } from "../reply/reply.ts";
import type { Outcome } from "./define-command.ts";

export const showStep = (step: MixStep): string => {
  const much =
    step.ml !== undefined
      ? showVolume(step.ml)
      : step.g !== undefined
        ? showMass(step.g)
        : "all of it";
  switch (step.kind) {
    case "water":
      return `start water, ${much}${step.temperature === undefined ? "" : ` at ${showTemperature(step.temperature)}`}`;
    case "part":
      return `part ${step.name}, ${much}${step.form === "powder" ? ", powder, poured low" : ""}`;
    case "top-up":
      return `water up TO the ${much} mark`;
  }
};

/** The same for the ear: the figure is what the hand needs. */
function sayStep({ kind, name, ml, g, temperature }: MixStep): string {
  const much = ml !== undefined ? showVolume(ml) : g !== undefined ? showMass(g) : "all of it";
  if (kind === "top-up") return `up to ${much}`;
  if (kind === "part") return `part ${name}, ${much}`;
  return temperature === undefined
    ? `water, ${much}`
    : `water, ${much} at ${showCelsius(temperature)}`;
}

/** The word that tells a step is done. */
const wordFor = (step: MixStep): string =>
  step.kind === "water" ? "water in" : step.kind === "part" ? `${step.name} in` : "full";

/** After a right word: what to do next, or that it is mixed. */
export function walkOn(bench: Bench, mixing: Mixing, now: Instant): Outcome {
  const vessels = {
    ...bench.vessels,
    [mixing.vessel]: { bath: mixing.bath, kind: mixing.kind, at: now },
  };
  const due = dueStep(mixing);
  const facts = {
    bath: mixing.bath,
    done: mixing.steps.slice(0, mixing.done).map(({ name }) => name),
    due: mixing.stirring ? "clear" : (due?.name ?? null),
  };
  if (isMixed(mixing)) {
    const { mixing: _, ...rest } = bench;
    return {
      bench: { ...rest, vessels },
      reply: answer({
        title: `${mixing.bath} is mixed: ${showVolume(mixing.total)}.`,
        lines: [
          "Measure its temperature and trim before use.",
          "Let it cool before the cap goes on tight. Wash the vessel, stirrer and thermometer.",
          `Then: bottle ${mixing.bath} ${showVolume(mixing.total)} mixed today.`,
        ],
        say: `${mixing.bath} is mixed. Bottle it and date it.`,
        facts: { ...facts, due: null },
        figures: { total_ml: { value: mixing.total, origin: { kind: "told" } } },
      }),
    };
  }
  return {
    bench: { ...bench, mixing, vessels },
    reply: answer({ ...whatNow(mixing), facts }),
  };
}

/** What the hand does next, and the word that tells it is done. */
export function whatNow(mixing: Mixing) {
  const last = mixing.steps[mixing.done - 1];
  const due = dueStep(mixing);
  if (mixing.stirring && last !== undefined) {
    return {
      title: `Part ${last.name} is in. Stir, then say clear when no grains or streaks are left.`,
      say: `${last.name} is in. Stir, and say clear.`,
    };
  }
  if (due === undefined) return { title: "Nothing is due.", say: "Nothing is due." };
  return {
    title: `Now ${showStep(due)}.`,
    lines: [`Say ${wordFor(due)}.`],
    say: `Now ${sayStep(due)}. Say ${wordFor(due)}.`,
  };
}

/** What a half-mixed bath still lacks, in a few words. */
export function missingIn(mixing: Mixing): string {
  const due = dueStep(mixing);
  if (mixing.stirring || due === undefined) return "and not clear yet";
  if (due.kind === "part") return `part ${due.name} not in`;
  return due.kind === "water" ? "its water not in" : "not filled up to its mark";
}

/** A run's word while no run is open and a bath is half mixed: the mix does not go on by it. */
export function stillMixing(mixing: Mixing): Reply {
  const { title, ...rest } = whatNow(mixing);
  return refuse("still-mixing", `No run is open: you are mixing ${mixing.bath}. ${title}`, rest);
}

const TELL = "Tell me what went in, in what order, with note.";
const DOUBT = "When in doubt, throw it out and begin again: say stop mixing.";
/** What to do with a batch that something wrong went into. */
export const spoiledWords: readonly string[] = [TELL, DOUBT];

/** A wrong word stops the hand: what is wrong, and what goes in next. */
export function walkStop(mixing: Mixing, trouble: WalkTrouble): Reply {
  const due = dueStep(mixing);
  const next = due === undefined ? "" : ` Next is ${showStep(due)}.`;
  const facts = { bath: mixing.bath, named: trouble.named, due: due?.name ?? null };
  const spoiled = [`If something wrong is in already: do not use this on film. ${TELL}`, DOUBT];
  switch (trouble.kind) {
    case "skipped":
      return refuse(
        "part-skipped",
        `STOP. ${trouble.due.kind === "part" ? `Part ${trouble.due.name}` : showStep(trouble.due)} is not in yet. Nothing else goes in until I hear ${wordFor(trouble.due)}.`,
        {
          say: `Stop. ${trouble.due.kind === "part" ? `Part ${trouble.due.name}` : "The water"} is not in yet.`,
          lines: spoiled,
          facts,
        },
      );
    case "again":
      return refuse("part-again", `Stop. ${capital(trouble.named)} is in already.${next}`, {
        say: `Stop. ${capital(trouble.named)} is in already.`,
        lines: spoiled,
        facts,
      });
    case "not-clear":
      return refuse(
        "not-clear",
        `Wait. Part ${trouble.last.name} must be clear first. Stir, then say clear.`,
        {
          say: `Wait. ${trouble.last.name} must be clear first.`,
          facts,
        },
      );
    case "no-such-part":
      return refuse("no-such-part", `Stop. ${mixing.bath} has no part ${trouble.named}.${next}`, {
        say: `Stop. ${mixing.bath} has no part ${trouble.named}.`,
        lines: spoiled,
        facts,
      });
    case "other-bath":
      return refuse(
        "other-bath",
        `STOP. You named ${trouble.other}, and ${mixing.bath} is in the vessel. Put that bottle away.${next}`,
        {
          say: `Stop. That is ${trouble.other}. You are mixing ${mixing.bath}.`,
          lines: spoiled,
          facts: { ...facts, other: trouble.other },
        },
      );
  }
}

export const nothingMixed = (): Reply =>
  refuse("not-mixing", "Nothing is being mixed. Say mix 1 litre of developer.", {
    say: "Nothing is being mixed.",
  });
