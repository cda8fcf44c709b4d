import { existsSync, readFileSync } from "node:fs";
import { parseEnv } from "node:util";
import { z } from "zod";

/** What the surroundings say, checked once. Nothing else reads the environment. */
const settingsSchema = z.object({
  /** Where benches are kept. */
  data: z.string().min(1).default("./bench-data"),
  /** IANA zone of a new bench. */
  zone: z.string(),
  /** Who speaks in the terminal. */
  who: z.string().default("you"),
  /** Voice: command lines of the recorder, the player and an own recogniser, and its model folder. */
  voice: z
    .object({
      microphone: z.string().min(1).optional(),
      speaker: z.string().min(1).optional(),
      engine: z.string().min(1).optional(),
      model: z.string().min(1).optional(),
    })
    .default({}),
});
export type Settings = z.infer<typeof settingsSchema>;

export function readSettings(env: NodeJS.ProcessEnv = process.env, file = ".env"): Settings {
  const fromFile = existsSync(file) ? parseEnv(readFileSync(file, "utf8")) : {};
  const all = { ...fromFile, ...env };
  return settingsSchema.parse({
    data: all.WETSIDE_DATA === "" ? undefined : all.WETSIDE_DATA,
    zone: Temporal.Now.timeZoneId(),
    voice: {
      microphone: all.WETSIDE_MICROPHONE || undefined,
      speaker: all.WETSIDE_SPEAKER || undefined,
      engine: all.WETSIDE_RECOGNISER || undefined,
      model: all.WETSIDE_SPEECH_MODEL || undefined,
    },
  });
}
