/**
 * Takes a person out of plain JSON: fields that hold their name hold "someone" then, and so does
 * every text, label and key in which it stands as a word.
 *
 * @param name  as the channel calls them
 */
export function forgetPerson(value: unknown, name: string): unknown {
  const exact = name.toLowerCase();
  const word = isCommon(name) ? undefined : wordOf(name);
  const text = (said: string, key: string): string => {
    if (persons.has(key) && said.toLowerCase() === exact) return SOMEONE;
    return word === undefined ? said : said.replace(word, SOMEONE);
  };
  const walk = (inner: unknown, key: string): unknown => {
    if (typeof inner === "string") return text(inner, key);
    if (Array.isArray(inner)) return inner.map((one) => walk(one, key));
    if (typeof inner !== "object" || inner === null) return inner;
    return Object.fromEntries(
      Object.entries(inner).map(([own, one]) => [text(own, ""), walk(one, own)]),
    );
  };
  return walk(value, "");
}

export const SOMEONE = "someone";

/** Keys that hold a person and nothing else. */
const persons: ReadonlySet<string> = new Set([
  "by",
  "inBy",
  "outBy",
  "owner",
  "who",
  "name",
  "people",
  "from",
  "to",
]);

/** Names that are also words of every other sentence are taken out of the fields for people alone. */
const isCommon = (name: string): boolean => common.has(name.toLowerCase());
const common: ReadonlySet<string> = new Set(["you", "me", "i", "we", "us", "someone", "it", "the"]);

const wordOf = (name: string): RegExp =>
  new RegExp(
    `(?<![\\p{L}\\p{N}])${RegExp.escape(name.trim())}(?:['’]?s)?(?![\\p{L}\\p{N}])`,
    "giu",
  );
