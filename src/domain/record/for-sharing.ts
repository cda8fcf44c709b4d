import type { SessionSummary, SharedSession } from "./session-schema.ts";

/** What was left out of a shared form, counted, for the preview. */
export type LeftOut = {
  readonly notes: number;
  readonly people: number;
  readonly places: number;
  readonly rolls: number;
  /** Names of people or places that stood in a label and were taken out of it. */
  readonly names: number;
};

/**
 * A session as others may see it. What is private has no place in its type; a name of a person or a
 * place that was put into a label ("Dora's tank") is taken out of that as well.
 */
export function forSharing(summary: SessionSummary): SharedSession {
  return shareWith(summary).shared;
}

/** The same with a count of what was left out. */
export function shareWith({ private: own, ...shown }: SessionSummary): {
  readonly shared: SharedSession;
  readonly leftOut: LeftOut;
} {
  const people = own.people.map(({ name }) => name);
  const scrub = scrubber([
    ...own.names,
    ...own.places,
    ...own.rolls.flatMap(({ name }) => name ?? []),
  ]);
  const shared = scrub.all(shown);
  return {
    shared,
    leftOut: {
      notes:
        own.notes.length +
        Number((own.different ?? "") !== "") +
        Number(own.stopped_because !== null),
      people: new Set([...people, ...own.mixed_by.map(({ by }) => by)]).size,
      places: own.places.length,
      rolls: own.rolls.filter(({ name, note }) => name !== null || note !== null).length,
      names: scrub.found(),
    },
  };
}

/** Whom the console calls everybody who types: no name of a person. */
const nobody = new Set(["you"]);

function scrubber(names: readonly string[]) {
  const known = [...new Set(names.map((name) => name.trim()))]
    .filter((name) => name.length > 1 && !nobody.has(name.toLowerCase()))
    .toSorted((one, other) => other.length - one.length);
  const pattern =
    known.length === 0
      ? undefined
      : new RegExp(
          `(?<![\\p{L}\\p{N}])(?:${known.map((name) => RegExp.escape(name)).join("|")})(?:['’]?s)?(?![\\p{L}\\p{N}])`,
          "giu",
        );
  let count = 0;
  const text = (value: string): string => {
    const ours = withoutReason(value);
    if (pattern === undefined) return ours;
    return ours.replace(pattern, () => {
      count += 1;
      return "(name left out)";
    });
  };
  const walk = (value: unknown, key: string): unknown => {
    if (typeof value === "string") return labels.has(key) ? text(value) : value;
    if (Array.isArray(value)) return value.map((inner) => walk(inner, key));
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([own, inner]) => [own, walk(inner, own)]));
  };
  return { all: <T>(value: T): T => walk(value, "") as T, found: () => count };
}

/** Keys whose text comes from people or is put together with theirs; all others are words of ours. */
const labels: ReadonlySet<string> = new Set([
  "tank",
  "title",
  "process",
  "name",
  "bath",
  "bottle",
  "thermometer",
  "unverified",
  "how",
  "source",
  "text",
  "because",
  "odd",
  "deviations",
]);

/** Why a thermometer is under suspicion was told in somebody's own words. */
const withoutReason = (text: string): string => text.replace(/(marked suspect),.*$/s, "$1.");
