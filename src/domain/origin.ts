/**
 * Where a figure comes from. `grade` says how well the source was seen: `read` (the passage
 * itself), `read-secondary` (a copy that quotes it), `from memory` (recalled, not seen),
 * `common practice` (habit without a source), `derived` (arithmetic), `invented` (demo only).
 */
export type OriginKind =
  | "sheet"
  | "published"
  | "common practice"
  | "own log"
  | "computed"
  | "from memory"
  | "told"
  | "invented";

export type Origin = {
  readonly kind: OriginKind;
  /** Title and table or page, or the sheet's name; nothing for common practice. */
  readonly source?: string | undefined;
};

/** A number that can say where it came from. `printed` keeps the figure as its source prints it. */
export type Figure<T extends number = number> = {
  readonly value: T;
  readonly origin: Origin;
  readonly printed?: string | undefined;
};

export const computed = (how?: string): Origin =>
  how === undefined ? { kind: "computed" } : { kind: "computed", source: how };
export const told: Origin = { kind: "told" };
export const commonPractice: Origin = { kind: "common practice" };
export const fromSheet = (name: string): Origin => ({ kind: "sheet", source: name });

/** An origin in a few words, as `why` and the JSON `origins` show it. */
export function showOrigin(origin: Origin): string {
  const source = origin.source;
  switch (origin.kind) {
    case "sheet":
      return source === undefined ? "your sheet" : `sheet: ${source}`;
    case "published":
      return `published: ${source ?? "source not named"}`;
    case "common practice":
      return source === undefined ? "common practice, no source" : `common practice: ${source}`;
    case "own log":
      return "this bench's own log";
    case "computed":
      return source === undefined ? "computed" : `computed: ${source}`;
    case "from memory":
      return source === undefined
        ? "from memory, check your sheet"
        : `from memory, not read: ${source}`;
    case "told":
      return "you said so";
    case "invented":
      return source === undefined ? "invented for the demo" : `invented for the demo: ${source}`;
  }
}

/** A figure that is recalled or made up must never pass without a word. */
export const isWeak = (origin: Origin): boolean =>
  origin.kind === "from memory" || origin.kind === "invented";
