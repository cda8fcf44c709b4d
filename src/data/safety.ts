import { z } from "zod";
import cautionFile from "../../data/cautions.json" with { type: "json" };
import emergencyFile from "../../data/emergencies.json" with { type: "json" };

const line = z.object({
  text: z.string(),
  source: z.string(),
  /** What the person is about to do when it is said. */
  when: z.array(z.enum(["mix", "run", "retire"])).min(1),
});
type Caution = z.infer<typeof line>;

/** By kind of bath, with `mixing` and `powder` beside them. */
export const bathCautions: Readonly<Record<string, readonly Caution[]>> = z
  .object({ baths: z.record(z.string(), z.array(line)) })
  .parse(cautionFile).baths;

const emergencyData = z
  .object({
    entries: z.array(
      z.object({
        id: z.string(),
        /** Any of these calls for it, whatever else is said. */
        words: z.array(z.string()),
        /** These do so when they are all that is said and answer no question. */
        alone: z.array(z.string()),
        /** How people tell of it, as templates, anywhere in a sentence. */
        ways: z.array(z.string()),
        say: z.string(),
        lines: z.array(z.string()),
        grade: z.string(),
      }),
    ),
  })
  .parse(emergencyFile);

export type Emergency = (typeof emergencyData.entries)[number];
export const emergencies: readonly Emergency[] = emergencyData.entries;
