import { z } from "zod";
import { bathCautions } from "../data/safety.ts";
import type { Amount } from "../domain/mixing/amount.ts";
import { explainBlend } from "../domain/mixing/blend.ts";
import {
  explainPercent,
  type Percent,
  type PercentKind,
  percent,
} from "../domain/mixing/percent.ts";
import { plain } from "../domain/units/show.ts";
import type { Reply } from "../reply/reply.ts";
import { declined } from "./declined.ts";

export const percentKinds = ["w/v", "v/v", "w/w"] as const;

/** A strength as it was said; the message is the question asked when it is missing. */
export const strengthField = (question: string) =>
  z.object({ percent: z.number(), kind: z.enum(percentKinds).optional() }, question);
type Said = z.output<ReturnType<typeof strengthField>>;

export type Agreed = {
  /** In the order they were said. */
  readonly strengths: readonly Percent[];
  /** What `values.percent_kind` says. */
  readonly kind: PercentKind | "by volume";
  /** What was taken for granted about the kind. */
  readonly assumed?: string | undefined;
  /** A sentence of the arithmetic, without a kind nobody named. */
  tell(sentence: string): string;
};

/**
 * Brings strengths to one kind. Kinds that were named must be the same; one that was not named is
 * taken as the one that was; with none, grams mean w/w, and for volumes v/v and w/v give one sum.
 */
export function agree(
  said: readonly Said[],
  measure: Amount["kind"] | undefined,
): Agreed | { readonly reply: Reply } {
  const named = [...new Set(said.flatMap(({ kind }) => (kind === undefined ? [] : [kind])))];
  const [only] = named;
  if (named.length > 1) {
    const error = { kind: "kinds-differ", kinds: named } as const;
    return { reply: declined(error, explainBlend(error)) };
  }
  const kind = only ?? (measure === "mass" ? "w/w" : "v/v");
  const byVolume = only === undefined && kind === "v/v";
  const tell = (sentence: string): string =>
    byVolume ? sentence.replaceAll(" % v/v", " %") : sentence;
  const strengths: Percent[] = [];
  for (const one of said) {
    const checked = percent(one.percent, kind);
    if (!checked.ok) return { reply: declined(checked.error, tell(explainPercent(checked.error))) };
    strengths.push(checked.value);
  }
  const silent = said.some((one) => one.kind === undefined);
  return {
    strengths,
    kind: byVolume ? "by volume" : kind,
    assumed: assumedOf(only, byVolume, silent),
    tell,
  };
}

function assumedOf(
  named: PercentKind | undefined,
  byVolume: boolean,
  silent: boolean,
): string | undefined {
  if (named !== undefined) {
    return silent
      ? `Only one strength was said to be ${named}; the rest taken as ${named} too.`
      : undefined;
  }
  return byVolume
    ? "No kind of percent was said: worked by volume, the same sum for v/v and w/v."
    : "No kind of percent was said: in grams it is taken as w/w.";
}

export const showStrength = ({ value }: Percent): string => `${plain(value, 2)} %`;

const acidRule = bathCautions.stop?.[0]?.text ?? "";

/** Acid goes to water. Where nobody said what is in the stock, the rule is said with an if. */
export function acidCautions(substance: string | undefined): readonly string[] {
  if (substance === undefined) return [`If it is an acid: ${acidRule}`];
  return /acid|glacial|acetic|vinegar|sul(f|ph)uric|hydrochloric/i.test(substance)
    ? [acidRule]
    : [];
}

/** "acetic acid" from free text, short enough to show; nothing for words that name no substance. */
export function substanceOf(said: string | undefined): string | undefined {
  const bare = said
    ?.replace(/^(a|an|the|of|my|our)\s+/i, "")
    .replace(/\s*\bdown$/i, "")
    .replace(/^(w\/v|v\/v|w\/w)\s*/i, "")
    .replace(/\s*\b(stock|solution|bottle)$/i, "")
    .trim();
  return bare === undefined || bare === "" ? undefined : bare.slice(0, 40);
}
