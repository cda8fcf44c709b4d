import { z } from "zod";
import { storedInstant } from "../units/stored.ts";

/** What was said at the end of a shift, as it was said. */
export const handoverSchema = z.object({
  at: storedInstant,
  from: z.string(),
  to: z.string(),
  lines: z.array(z.string()),
});
export type Handover = z.infer<typeof handoverSchema>;

/** Handovers a bench keeps. */
const KEPT = 50;

export const withHandover = <B extends { readonly handovers?: Handover[] | undefined }>(
  bench: B,
  handover: Handover,
): B => ({ ...bench, handovers: [...(bench.handovers ?? []), handover].slice(-KEPT) });
