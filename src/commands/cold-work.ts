import { coldRules } from "../data/cold-rules.ts";
import { type Bath, isColour, type Sheet } from "../domain/process/sheet.ts";
import { coldRuleFor, coldTime, explainCold } from "../domain/temperature/cold-time.ts";
import { type Celsius, type Seconds, seconds } from "../domain/units/quantity.ts";
import { refuse } from "../reply/reply.ts";
import type { Developing } from "./developing.ts";

/** How many times longer a cold bath takes, where its normal time is not known. */
export function coldFactor(
  sheet: Sheet,
  bath: Bath,
  at: Celsius,
): { readonly factor: number; readonly how: string } | undefined {
  const rule = coldRuleFor(coldRules, bath.kind);
  if (rule === undefined || isColour(sheet.process)) return undefined;
  const cold = coldTime(rule, seconds(60), at, bath.temperature?.value);
  return cold.ok ? cold.value : undefined;
}

/** A cold fixer or wash of a black-and-white process works longer; nothing where no rule is for it. */
export function coldWork(
  sheet: Sheet,
  bath: Bath,
  told: Seconds | undefined,
  at: Celsius | undefined,
): Developing | undefined {
  const rule = coldRuleFor(coldRules, bath.kind);
  if (rule === undefined || at === undefined || isColour(sheet.process)) return undefined;
  const base = told === undefined ? bath.time : { value: told, origin: { kind: "told" } as const };
  if (base === undefined) return undefined;
  const cold = coldTime(rule, base.value, at, bath.temperature?.value);
  if (!cold.ok) {
    return {
      reply: refuse(cold.error.kind, explainCold(cold.error), {
        say: "I know no time for a bath that cold. Warm it.",
      }),
    };
  }
  const { time, how } = cold.value;
  const by = seconds(time - base.value);
  if (by === 0) return undefined;
  return {
    found: {
      time: { value: time, origin: { kind: "computed", source: how } },
      base,
      corrections: [{ kind: "temperature", by, how }],
      beyondTable: false,
    },
  };
}
