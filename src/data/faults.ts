import { z } from "zod";
import bleachFixWash from "../../data/faults/causes/bleach-fix-wash.json" with { type: "json" };
import developing from "../../data/faults/causes/developing.json" with { type: "json" };
import handling from "../../data/faults/causes/handling.json" with { type: "json" };
import lightFilmCamera from "../../data/faults/causes/light-film-camera.json" with { type: "json" };
import evidenceFile from "../../data/faults/evidence.json" with { type: "json" };
import questionFile from "../../data/faults/questions.json" with { type: "json" };
import sourceFile from "../../data/faults/sources.json" with { type: "json" };
import symptomFile from "../../data/faults/symptoms.json" with { type: "json" };
import type { NoteRule, TroubleRule } from "../domain/faults/evidence-notes.ts";
import {
  type Cause,
  culpritRoles,
  type FaultQuestion,
  type FaultTables,
  faultGrades,
  type Symptom,
} from "../domain/faults/tables.ts";
import { rescues, troubleWords } from "./rescues.ts";

const sources = z
  .strictObject({
    note: z.string(),
    sources: z.record(
      z.string(),
      z.strictObject({ source: z.string().min(5), grade: z.enum(faultGrades) }),
    ),
  })
  .parse(sourceFile).sources;

/** A key of sources.json becomes the source itself; an unknown one is our bug, found at start. */
const from = z.string().transform((key, context) => {
  const found = Object.hasOwn(sources, key) ? sources[key] : undefined;
  if (found !== undefined) return found;
  context.addIssue(`no source called ${key}`);
  return z.NEVER;
});

const only = z.literal("colour").optional();
const points = z.record(z.string(), z.number().int().min(-9).max(9));
const sourced = z.strictObject({ text: z.string(), from });
const advice = sourced.extend({ chemicals: z.array(z.string()).default([]) });

const causeFile = z.strictObject({
  theme: z.string(),
  causes: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      ways: z.array(z.string()).min(1),
      culprit: z.enum(culpritRoles).optional(),
      foul: z.literal(true).optional(),
      only,
      how: sourced,
      checks: z.array(advice).min(1),
      rescue: advice.extend({ possible: z.enum(["yes", "partly", "no"]) }),
    }),
  ),
});

const checkedSymptoms = z
  .strictObject({
    note: z.string(),
    symptoms: z.array(
      z.strictObject({
        id: z.string(),
        name: z.string(),
        from: z.array(from).min(1),
        ways: z.array(z.string()),
        nouns: z.array(z.string()).min(1),
        asks: z.array(z.string()).min(1),
        causes: z
          .array(z.tuple([z.string(), z.number().int().min(1).max(4)]))
          .min(2)
          .transform((rows) => rows.map(([id, worth]) => ({ id, points: worth }))),
      }),
    ),
  })
  .parse(symptomFile).symptoms;

const checkedQuestions = z
  .strictObject({
    note: z.string(),
    questions: z.array(
      z.strictObject({
        id: z.string(),
        ask: z.string(),
        say: z.string().optional(),
        how: z.string(),
        from,
        options: z
          .array(
            z.strictObject({
              word: z.string(),
              because: z.string(),
              ways: z.array(z.string()),
              causes: points,
            }),
          )
          .min(2),
      }),
    ),
  })
  .parse(questionFile).questions;

const checkedEvidence = z
  .strictObject({
    note: z.string(),
    rules: z.array(z.strictObject({ kind: z.string(), from, causes: points })),
    notes: z.array(z.strictObject({ kind: z.string(), ways: z.array(z.string()).min(1) })),
    troubles: z.array(z.strictObject({ what: z.string(), detail: z.string(), kind: z.string() })),
  })
  .parse(evidenceFile);

const byId = <T extends { readonly id: string }>(rows: readonly T[]): ReadonlyMap<string, T> =>
  new Map(rows.map((row) => [row.id, row]));

export const symptoms: readonly Symptom[] = checkedSymptoms;
export const faultQuestions: readonly FaultQuestion[] = checkedQuestions;
export const causes: readonly Cause[] = [developing, bleachFixWash, lightFilmCamera, handling]
  .flatMap((file) => causeFile.parse(file).causes)
  .map((cause) => ({
    ...cause,
    // What needs no chemicals is looked at first, whatever the order in the file.
    checks: cause.checks.toSorted((a, b) => a.chemicals.length - b.chemicals.length),
  }));

/** Symptoms, causes, questions and what the log is worth, each line with its source and grade. */
export const faultTables: FaultTables = {
  causes: byId(causes),
  symptoms: byId(symptoms),
  questions: byId(faultQuestions),
  evidence: new Map(checkedEvidence.rules.map(({ kind, ...rule }) => [kind, rule])),
};

export const noteRules: readonly NoteRule[] = checkedEvidence.notes;
export const troubleRules: readonly TroubleRule[] = checkedEvidence.troubles.map((rule) => {
  const rescue = rescues.find(({ id }) => id === rule.what);
  if (rescue === undefined) throw new Error(`no rescue called ${rule.what}`);
  return { ...troubleWords(rescue, rule.detail), kind: rule.kind };
});
