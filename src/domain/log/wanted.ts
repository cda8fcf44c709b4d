import { z } from "zod";
import { processMarks } from "../film/process-mark.ts";
import { storedNumber } from "../units/stored.ts";

/** What can have gone otherwise than planned in a bath. */
export const faults = ["short", "long", "skipped", "warm", "cold", "assumed", "any"] as const;
export type Fault = (typeof faults)[number];

/**
 * One thing asked of a run. A run is wanted when every clause holds for it. A name is kept as it
 * was said: what it belongs to, a person, a bottle or a tank, the bench knows.
 */
export const clauseSchema = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("push"), stops: z.union([storedNumber, z.enum(["push", "pull"])]) }),
  z.object({
    kind: z.literal("film"),
    format: z.string(),
    /** Rolls or sheets of it, where that was said. */
    count: storedNumber.optional(),
  }),
  z.object({ kind: z.literal("process"), mark: z.enum(processMarks) }),
  z.object({ kind: z.literal("name"), text: z.string() }),
  /** ISO dates in the bench's zone, both counted in. */
  z.object({ kind: z.literal("dates"), from: z.string().optional(), to: z.string().optional() }),
  z.object({ kind: z.literal("fault"), fault: z.enum(faults), bath: z.string().optional() }),
  /** No deviation at all. */
  z.object({ kind: z.literal("clean") }),
  z.object({ kind: z.literal("stopped") }),
  z.object({ kind: z.literal("rehearsals") }),
]);
export type Clause = z.infer<typeof clauseSchema>;
