import { z } from "zod";
import { answersSchema } from "../teaching/answers.ts";

/** A sheet being taught: the answers so far. */
export const draftSchema = z.object({
  answers: answersSchema,
  by: z.string(),
  /** The stored sheet it corrects; missing for a new one. */
  corrects: z.string().optional(),
});
export type Draft = z.infer<typeof draftSchema>;
