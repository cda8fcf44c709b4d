import { z } from "zod";

/** A tank with the reels it takes; volumes in mL by reel, never by tank. */
export const tankSchema = z.object({ name: z.string() });
export type Tank = z.infer<typeof tankSchema>;
