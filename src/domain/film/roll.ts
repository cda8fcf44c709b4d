import { z } from "zod";
import { filmFormats } from "./load.ts";

/** One roll or sheet of film that waits to be processed. */
export const rollSchema = z.object({
  id: z.string(),
  format: z.enum(filmFormats),
});
export type Roll = z.infer<typeof rollSchema>;
