import { oneBreath, type Reply, refuse } from "../reply/reply.ts";

const fits = (sentence: string): boolean => sentence.split(/\s+/).length <= 12;

/** What to do, which our refusals put behind their last colon; the whole where it is short. */
function shortOf(sentence: string): string {
  if (fits(sentence)) return sentence;
  const at = sentence.lastIndexOf(": ");
  const rest = sentence.slice(at + 2);
  if (at < 0 || !fits(rest)) return oneBreath("That does not work out. The lines say why.");
  return `${rest.charAt(0).toUpperCase()}${rest.slice(1)}`;
}

/** A refusal of the arithmetic: its own sentence, and for the ear what to give instead. */
export const declined = (
  error: { readonly kind: string },
  sentence: string,
  parts: Parameters<typeof refuse>[2] = {},
): Reply => refuse(error.kind, sentence, { say: shortOf(sentence), ...parts });
