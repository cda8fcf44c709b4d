import { z } from "zod";
import file from "../../data/rescues.json" with { type: "json" };

const verdict = z.object({ say: z.string(), lines: z.array(z.string()), source: z.string() });

const checked = z
  .object({
    entries: z.array(
      z.object({
        id: z.string(),
        word: z.string(),
        words: z.array(z.string()),
        /** How people tell of it in a whole sentence, as templates, and the case it is. */
        ways: z.array(z.object({ says: z.string(), detail: z.string().optional() })),
        ask: z.object({ title: z.string(), options: z.array(z.string()).min(2) }),
        verdicts: z.record(z.string(), verdict),
      }),
    ),
  })
  .parse(file);

export type Rescue = (typeof checked.entries)[number];

/** What went wrong at the tank, the one question that separates the cases, and a verdict for each. */
export const rescues: readonly Rescue[] = checked.entries;

/** A trouble as the record of its run has it: the words it was asked about in, and the answer. */
export const troubleWords = (
  { word, ask }: Rescue,
  detail: string,
): { readonly what: string; readonly detail: string } => ({
  what: word,
  detail: `${ask.title} ${detail}`,
});
