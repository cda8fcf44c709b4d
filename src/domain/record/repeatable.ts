import { z } from "zod";
import { filmFormats } from "../film/load.ts";
import { markOf, processMarks } from "../film/process-mark.ts";
import { isDeveloper, senses } from "../process/sheet.ts";
import { err, ok, type Result } from "../result.ts";
import type { Run, Stage } from "../session/run.ts";
import { storedNumber } from "../units/stored.ts";
import type { SharedSession } from "./session-schema.ts";

/** What a bath can be: the kinds this bench knows cautions and limits for. */
export const bathKinds = [
  "prewash",
  "prebath",
  "developer",
  "first developer",
  "second developer",
  "colour developer",
  "stop",
  "bleach",
  "fixer",
  "blix",
  "wash",
  "stabilizer",
  "reversal",
  "conditioner",
  "wetting agent",
  "hypo clear",
] as const;

const label = z
  .string()
  .regex(/^\p{L}[\p{L}\p{N} -]{0,39}$/u)
  .describe("letters, digits, spaces and hyphens; 40 at most");
const s = storedNumber.min(0).max(86_400);
const stops = storedNumber.min(-3).max(3);

const bathSchema = z.strictObject({
  name: label,
  kind: z.enum(bathKinds),
  sense: z.enum(senses),
  time_s: s.describe("without a push, at `temp_c` where that is given, s"),
  temp_c: storedNumber.min(0).max(100).optional(),
  tolerance_c: storedNumber.positive().max(15).optional().describe("half width of the band, °C"),
  first_s: s.optional().describe("first movement, s"),
  every_s: s.optional().describe("from one later beat to the next, s"),
  each_s: s.optional().describe("length of a later beat, s"),
  push: z
    .strictObject({ stops, time_s: s })
    .optional()
    .describe("the time this bath had with the push of the run"),
});

/**
 * A run that another bench can do again: figures and the names of baths, no words of a person. It
 * is never trusted: the bench that gets one checks it as if it were being taught, shows every line
 * and waits for a yes.
 */
export const repeatableSchema = z.strictObject({
  schema: z.literal("wetside-repeatable"),
  version: z.literal(1),
  name: label,
  process: z.enum(processMarks),
  invented: z.boolean().describe("made-up figures, never for real film"),
  push: stops,
  film: z
    .array(
      z.strictObject({ format: z.enum(filmFormats), count: storedNumber.int().min(1).max(40) }),
    )
    .max(8),
  baths: z.array(bathSchema).min(1).max(12),
});
export type Repeatable = z.infer<typeof repeatableSchema>;

/** The kind of a bath that this form knows, for one it has no word for there is nothing to repeat. */
const kindOf = (kind: string): Repeatable["baths"][number]["kind"] | undefined =>
  bathKinds.find((one) => one === kind);

/** A label as it may stand here: what a name was taken out of falls back to the plain word. */
const plainLabel = (text: string, otherwise: string): string => {
  const tidy = text
    .replace(/[^\p{L}\p{N} -]/gu, "")
    .replace(/\s+/g, " ")
    .trim()
    .slice(0, 40)
    .trim();
  return text.includes("left out") || !/^\p{L}/u.test(tidy) ? otherwise : tidy;
};

/**
 * What a run was meant to be, to be done again. Re-use is of its own bottle and stays behind; a
 * drift that was made good is no plan either.
 *
 * @param shared  the same run as it may be shared: labels come from there alone
 * @returns a sentence where it cannot be repeated from its figures
 */
export function repeatableOf(shared: SharedSession, run: Run): Result<Repeatable, string> {
  const process = markOf(shared.process);
  if (process === undefined) {
    return err("Another bench needs to know the process: C-41, E-6, ECN-2 or black-and-white.");
  }
  const baths: Repeatable["baths"] = [];
  for (const [index, stage] of run.stages.entries()) {
    const kind = kindOf(stage.kind);
    if (kind === undefined) return err(`${stage.kind} is no bath that other benches know.`);
    const wanted = plainLabel(shared.stages[index]?.bath ?? "", kind);
    baths.push({ name: unlike(wanted, baths), kind, ...figuresOf(stage, run.push ?? 0) });
  }
  if (baths.length > 12) return err("Twelve baths at most can be repeated.");
  return ok({
    schema: "wetside-repeatable",
    version: 1,
    name: plainLabel(shared.sheet.name, process),
    process,
    invented: shared.sheet.invented,
    push: shared.push,
    film: shared.film
      .map(({ format, count }) => ({ format, count: Math.min(count, 40) }))
      .slice(0, 8),
    baths,
  });
}

function unlike(name: string, others: Repeatable["baths"]): string {
  const taken = others.filter((other) => other.name === name || other.name.startsWith(`${name} `));
  return taken.length === 0 ? name : `${name} ${taken.length + 1}`;
}

const tidy = (value: number): number => Math.round(value * 1000) / 1000;

function figuresOf(stage: Stage, push: number): Omit<Repeatable["baths"][number], "name" | "kind"> {
  const { temperature, tolerance, agitation, sense } = stage;
  const by = (kind: string): number =>
    (stage.corrections ?? []).reduce((sum, one) => sum + (one.kind === kind ? one.by : 0), 0);
  const base = stage.timeBase ?? stage.timeMeant ?? stage.time;
  // Temperature multiplies whatever the time is by then.
  const before = base + by("re-use") + by("push");
  const warmth = before > 0 ? (before + by("temperature")) / before : 1;
  const pushed = push !== 0 && isDeveloper(stage.kind) && by("push") !== 0;
  return {
    sense,
    time_s: tidy(base * warmth),
    ...(temperature === undefined ? {} : { temp_c: tidy(temperature) }),
    ...(temperature === undefined || tolerance === undefined
      ? {}
      : { tolerance_c: tidy(tolerance) }),
    ...(agitation === undefined ? {} : { first_s: tidy(agitation.initial) }),
    ...(agitation?.every === undefined ? {} : { every_s: tidy(agitation.every) }),
    ...(agitation?.every === undefined || agitation.each === undefined
      ? {}
      : { each_s: tidy(agitation.each) }),
    ...(pushed ? { push: { stops: push, time_s: tidy((base + by("push")) * warmth) } } : {}),
  };
}
