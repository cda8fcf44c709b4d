import { isColour } from "../process/sheet.ts";
import type { Seen } from "./diagnosis.ts";
import { UNKNOWN } from "./diagnosis.ts";
import type { Evidence } from "./run-facts.ts";
import type { Cause, FaultSource, FaultTables } from "./tables.ts";

/** One thing that speaks for a cause (points above 0) or against it. */
export type Weight = {
  readonly kind: "table" | "answer" | "log";
  readonly points: number;
  readonly text: string;
  readonly from: FaultSource;
};

/** A cause with all that makes up its points. */
export type RankedCause = {
  readonly cause: Cause;
  readonly points: number;
  readonly weights: readonly Weight[];
};

/**
 * Ranks the causes of what was seen. Points simply add up: the table's own for each symptom (a
 * cause that explains two gets both), the answers', and what the log says. How many points each
 * thing is worth is our own judgement; the order of causes in the table is its source's.
 *
 * @param process  of the run; causes that only colour knows fall away in black and white
 * @returns every cause of the symptoms, most points first; equals in the order of the table
 */
export function rankCauses(
  tables: FaultTables,
  { symptoms, given, process: told }: Seen,
  evidence: readonly Evidence[],
  process: string | undefined = told,
): readonly RankedCause[] {
  const weights = new Map<string, Weight[]>();
  for (const id of symptoms) {
    const symptom = tables.symptoms.get(id);
    const [from] = symptom?.from ?? [];
    if (symptom === undefined || from === undefined) continue;
    for (const { id: cause, points } of symptom.causes) {
      const text = `a known cause of ${symptom.name}`;
      weights.set(cause, [...(weights.get(cause) ?? []), { kind: "table", points, text, from }]);
    }
  }
  const add = (causes: Readonly<Record<string, number>>, rest: Omit<Weight, "points">): void => {
    for (const [cause, points] of Object.entries(causes)) {
      weights.get(cause)?.push({ ...rest, points });
    }
  };
  for (const [id, word] of Object.entries(given)) {
    const question = tables.questions.get(id);
    const option = question?.options.find((one) => one.word === word);
    if (question === undefined || option === undefined || word === UNKNOWN) continue;
    add(option.causes, { kind: "answer", text: option.because, from: question.from });
  }
  for (const { kind, text, causes } of evidence) {
    const rule = tables.evidence.get(kind);
    if (rule === undefined) continue;
    add(causes ?? rule.causes, { kind: "log", text, from: rule.from });
  }
  return [...weights]
    .flatMap(([id, all]) => {
      const cause = tables.causes.get(id);
      const foreign = cause?.only === "colour" && process !== undefined && !isColour(process);
      if (cause === undefined || foreign) return [];
      return [{ cause, points: all.reduce((sum, { points }) => sum + points, 0), weights: all }];
    })
    .toSorted((a, b) => b.points - a.points);
}

/** How sure a place in the ranking may sound: never sure. */
export type Likelihood = "most likely of these" | "about as likely" | "could be" | "less likely";

/** Points behind the first that still count as about as likely, and behind which it is less so (own bounds). */
const CLOSE = 1;
const FAR = 6;

export function likelihoodOf(ranking: readonly RankedCause[], index: number): Likelihood {
  if (index === 0) return "most likely of these";
  const behind = (ranking[0]?.points ?? 0) - (ranking[index]?.points ?? 0);
  if (behind <= CLOSE) return "about as likely";
  return behind >= FAR || (ranking[index]?.points ?? 0) <= 0 ? "less likely" : "could be";
}
