import { z } from "zod";
import { answersSchema } from "../teaching/answers.ts";
import { storedId } from "../units/stored.ts";

/** A sheet being taught: the answers so far. */
export const draftSchema = z.object({
  answers: answersSchema,
  by: z.string(),
  /** The stored sheet it corrects; missing for a new one. */
  corrects: storedId.optional(),
});
export type Draft = z.infer<typeof draftSchema>;
