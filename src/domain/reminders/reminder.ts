import { z } from "zod";
import { instant } from "../units/quantity.ts";

/** Something to be said at an instant, once. */
export const reminderSchema = z.object({
  id: z.string(),
  text: z.string(),
  at: z.number().transform(instant),
});
export type Reminder = z.infer<typeof reminderSchema>;
