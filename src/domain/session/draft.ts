import { z } from "zod";

/** A sheet being taught: the answers so far, by question, and the question that is open. */
export const draftSchema = z.object({
  answers: z.record(z.string(), z.json()),
  asking: z.string(),
  by: z.string(),
});
export type Draft = z.infer<typeof draftSchema>;
