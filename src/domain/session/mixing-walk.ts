import { z } from "zod";
import { celsius, grams, millilitres } from "../units/quantity.ts";
import { storedId, storedInstant, storedNumber } from "../units/stored.ts";

const stepSchema = z.object({
  kind: z.enum(["water", "part", "top-up"]),
  name: z.string(),
  form: z.enum(["liquid", "powder"]).optional(),
  ml: storedNumber.transform(millilitres).optional(),
  g: storedNumber.transform(grams).optional(),
  temperature: storedNumber.transform(celsius).optional(),
});
export type MixStep = z.infer<typeof stepSchema>;

/** A bath being mixed, part by part. */
export const mixingSchema = z.object({
  sheet: storedId,
  bath: z.string(),
  kind: z.string(),
  total: storedNumber.transform(millilitres),
  vessel: z.string(),
  steps: z.array(stepSchema).min(1),
  /** Steps that are in. */
  done: storedNumber.int(),
  /** The last part is in but not yet called clear. */
  stirring: z.boolean(),
  startedAt: storedInstant,
});
export type Mixing = z.infer<typeof mixingSchema>;

export type WalkTrouble =
  /** Another part is due. */
  | { readonly kind: "skipped"; readonly due: MixStep; readonly named: string }
  /** It is in already. */
  | { readonly kind: "again"; readonly named: string; readonly due: MixStep | undefined }
  /** The last part has not dissolved. */
  | { readonly kind: "not-clear"; readonly last: MixStep; readonly named: string }
  /** This bath has no such part. */
  | { readonly kind: "no-such-part"; readonly named: string; readonly due: MixStep | undefined }
  /** A part of another bath was named. */
  | { readonly kind: "other-bath"; readonly other: string; readonly named: string };

export type Walked =
  | { readonly ok: true; readonly mixing: Mixing }
  | { readonly ok: false; readonly trouble: WalkTrouble };

export const dueStep = (mixing: Mixing): MixStep | undefined => mixing.steps[mixing.done];
export const isMixed = (mixing: Mixing): boolean =>
  mixing.done >= mixing.steps.length && !mixing.stirring;

/**
 * "A in": the named part went in. `otherBath` is the bath the user named with it, when that is
 * not the one being mixed. Nothing is marked unless it is the part that was due.
 */
export function partIn(mixing: Mixing, named: string, otherBath?: string): Walked {
  if (otherBath !== undefined) {
    return { ok: false, trouble: { kind: "other-bath", other: otherBath, named } };
  }
  const isNamed = (step: MixStep): boolean => step.name.toLowerCase() === named.toLowerCase();
  const due = dueStep(mixing);
  // A part may be called like a step before it: "water" can be a part as well.
  const index = due !== undefined && isNamed(due) ? mixing.done : mixing.steps.findIndex(isNamed);
  if (index < 0) return { ok: false, trouble: { kind: "no-such-part", named, due } };
  if (index < mixing.done) return { ok: false, trouble: { kind: "again", named, due } };
  const last = mixing.steps[mixing.done - 1];
  if (mixing.stirring && last !== undefined) {
    return { ok: false, trouble: { kind: "not-clear", last, named } };
  }
  if (index > mixing.done && due !== undefined) {
    return { ok: false, trouble: { kind: "skipped", due, named } };
  }
  const stirring = mixing.steps[index]?.kind === "part";
  return { ok: true, mixing: { ...mixing, done: mixing.done + 1, stirring } };
}

/** "clear": no grains are left and the next part may go in. */
export const called = (mixing: Mixing): Mixing => ({ ...mixing, stirring: false });
