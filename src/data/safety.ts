import { z } from "zod";
import cautionFile from "../../data/cautions.json" with { type: "json" };
import emergencyFile from "../../data/emergencies.json" with { type: "json" };

const line = z.object({ text: z.string(), source: z.string() });
export type Caution = z.infer<typeof line>;

const cautionData = z
  .object({ baths: z.record(z.string(), z.array(line)), mixing: line })
  .parse(cautionFile);

export const bathCautions: Readonly<Record<string, readonly Caution[]>> = cautionData.baths;
export const mixingCaution: Caution = cautionData.mixing;

const emergencyData = z
  .object({
    entries: z.array(
      z.object({
        id: z.string(),
        words: z.array(z.string()),
        say: z.string(),
        lines: z.array(z.string()),
        grade: z.string(),
      }),
    ),
  })
  .parse(emergencyFile);

export type Emergency = (typeof emergencyData.entries)[number];
export const emergencies: readonly Emergency[] = emergencyData.entries;
