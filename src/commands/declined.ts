import { oneBreath, type Reply, refuse } from "../reply/reply.ts";

const fits = (sentence: string): boolean => sentence.split(/\s+/).length <= 12;

/** What to do, which our refusals put behind their last colon; the whole where it is short. */
function shortOf(sentence: string): string {
  if (fits(sentence)) return sentence;
  const at = sentence.lastIndexOf(": ");
  const rest = sentence.slice(at + 2);
  if (at < 0) return "That does not work out. The screen says why.";
  const [first = ""] = rest.split(/, | so /);
  const what = fits(rest) ? rest : `${first.replace(/\.$/, "")}.`;
  return oneBreath(`${what.charAt(0).toUpperCase()}${what.slice(1)}`);
}

/** A refusal of the arithmetic: its own sentence, and for the ear what to give instead. */
export const declined = (
  error: { readonly kind: string },
  sentence: string,
  parts: Parameters<typeof refuse>[2] = {},
): Reply => refuse(error.kind, sentence, { say: shortOf(sentence), ...parts });
