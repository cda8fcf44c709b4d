import { z } from "zod";
import { processMarks } from "../domain/film/process-mark.ts";
import type { Roll } from "../domain/film/roll.ts";

const PUSH = "I know pushes and pulls of 1, 2 or 3 whole stops. Give one of these.";
const RATED = "A film is rated between 1 and 51200. Say it like rated 400.";

/** Traits as read, with what is wrong in a sentence. */
export const traitsField = z.object({
  marked: z.enum(processMarks).optional(),
  push: z.number().int(PUSH).min(-3, PUSH).max(3, PUSH).optional(),
  rated: z.number().int(RATED).min(1, RATED).max(51_200, RATED).optional(),
  important: z.boolean().optional(),
  doubtful: z.boolean().optional(),
  blackBacked: z.boolean().optional(),
  name: z.string().max(30, "Give it a name of one or two short words.").optional(),
});
export type SaidTraits = z.output<typeof traitsField>;

export const textField = z.string().max(200, "That takes 200 characters at most.");

/** A roll with what was said of it; what was not said stays. */
export function withTraits(roll: Roll, traits: Omit<SaidTraits, "name">): Roll {
  const { marked, push, rated, important, doubtful, blackBacked } = traits;
  return {
    ...roll,
    ...(marked === undefined ? {} : { marked }),
    ...(push === undefined ? {} : { push }),
    ...(rated === undefined ? {} : { rated }),
    ...(important === undefined ? {} : { important }),
    ...(doubtful === undefined ? {} : { doubtful }),
    ...(blackBacked === undefined ? {} : { blackBacked }),
  };
}
