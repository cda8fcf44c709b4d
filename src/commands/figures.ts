import { computed, type Origin } from "../domain/origin.ts";
import type { Shown } from "../reply/reply.ts";

/** Short hands for the figures of a reply. */
export const of = (value: number, origin: Origin): Shown => ({ value, origin });
export const worked = (value: Shown["value"], how: string): Shown => ({
  value,
  origin: computed(how),
});
export const said = (value: Shown["value"]): Shown => ({ value, origin: { kind: "told" } });
