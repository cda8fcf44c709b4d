import { type Emergency, emergencies } from "../data/safety.ts";
import { holdsTemplate } from "../language/holds-template.ts";
import type { Words } from "../language/words.ts";

const calls = emergencies.map((emergency) => {
  const ways = emergency.ways.map(holdsTemplate);
  return {
    emergency,
    words: new Set(emergency.words),
    tells: (words: readonly string[]) => ways.some((holds) => holds(words)),
  };
});

/** What is written down or put off is no cry for help, unless one of the loudest words is in it. */
const putDown: ReadonlySet<string> = new Set(["note", "remind", "reminder"]);

/** The first aid somebody calls for: a word that always does, or a way to tell of it anywhere. */
export function emergencyIn({ words }: Pick<Words, "words">): Emergency | undefined {
  const loud = calls.find((call) => words.some((word) => call.words.has(word)));
  if (loud !== undefined) return loud.emergency;
  if (putDown.has(words[0] ?? "")) return undefined;
  return calls.find((call) => call.tells(words))?.emergency;
}
