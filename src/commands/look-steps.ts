import { rollCount } from "../domain/film/load.ts";
import type { FirstLook } from "../domain/record/first-look.ts";
import type { Run } from "../domain/session/run.ts";
import type { Option } from "../reply/reply.ts";

export type LookStep = {
  /** What it fills in, and by what name it is skipped. */
  readonly about: "edgeNumbers" | "clearParts" | "rebate" | "sameOnAll" | "place" | "edge" | "grey";
  readonly slot: "seen" | "rgb";
  readonly title: string;
  readonly say: string;
  readonly options: readonly Option[];
};

const SKIP: Option = { word: "skip", value: { skip: true } };
const sound = {
  edgeNumbers: "crisp",
  clearParts: "clear",
  rebate: "sound",
  sameOnAll: true,
  place: "nothing",
};

/** Slides have a black rebate where negatives have a clear one. */
const isSlide = ({ process }: Run): boolean => process === "E-6";

/** The next thing to ask of a film, or undefined when all is asked. Numbers take the place of eyes. */
export function lookStep(
  run: Run,
  look: Partial<FirstLook>,
  skipped: readonly string[],
  scanner: boolean,
): LookStep | undefined {
  const open = (about: LookStep["about"]): boolean =>
    look[about] === undefined && !skipped.includes(about);
  // Who has asked for numbers has them ready: they come before what only an eye can see.
  if (scanner && open("edge")) return inNumbers("edge", "the unexposed edge");
  if (scanner && open("grey")) return inNumbers("grey", "a grey");
  if (open("edgeNumbers")) return edgeNumbers(scanner);
  if (!scanner && open("clearParts")) return clearParts;
  if (!scanner && open("rebate")) return rebate(isSlide(run));
  const rolls = rollCount(run.film);
  if (rolls > 1 && open("sameOnAll")) return sameOnAll(rolls);
  if (open("place")) return place;
  return undefined;
}

const edgeNumbers = (scanner: boolean): LookStep => ({
  about: "edgeNumbers",
  slot: "seen",
  title: "Numbers printed along the edge: crisp, faint or missing?",
  say: "Edge numbers: crisp, faint or missing?",
  options: [
    { word: "crisp", value: { edgeNumbers: "crisp" } },
    { word: "faint", value: { edgeNumbers: "faint" } },
    { word: "missing", value: { edgeNumbers: "missing" } },
    { word: "all good", value: sound },
    ...(scanner ? [] : [{ word: "scanner", value: { scanner: true } }]),
    SKIP,
  ],
});

const clearParts: LookStep = {
  about: "clearParts",
  slot: "seen",
  title:
    "Where the film should be clearest: clear, cloudy or tinted? Scanner takes numbers instead.",
  say: "Clear parts: clear, cloudy or tinted?",
  options: [
    { word: "clear", value: { clearParts: "clear" } },
    { word: "cloudy", value: { clearParts: "cloudy" } },
    { word: "tinted", value: { clearParts: "tinted" } },
    { word: "scanner", value: { scanner: true } },
    SKIP,
  ],
};

const rebate = (slide: boolean): LookStep => ({
  about: "rebate",
  slot: "seen",
  title: slide
    ? "The rebate, the strip along the edge of a slide film: black, or lighter?"
    : "The rebate, the strip along the edge: clear between the numbers, or dark?",
  say: slide ? "The rebate: black, or lighter?" : "The rebate: clear, or dark?",
  options: [
    { word: slide ? "black" : "clear", value: { rebate: "sound" } },
    { word: slide ? "lighter" : "dark", value: { rebate: "fogged" } },
    SKIP,
  ],
});

const sameOnAll = (rolls: number): LookStep => ({
  about: "sameOnAll",
  slot: "seen",
  title: `The same on all ${rolls} in the tank?`,
  say: `The same on all ${rolls}?`,
  options: [
    { word: "yes", value: { sameOnAll: true } },
    { word: "no", value: { sameOnAll: false } },
    SKIP,
  ],
});

const place: LookStep = {
  about: "place",
  slot: "seen",
  title: "Streaks, spots or bands: none, at the same place on each frame, or at different places?",
  say: "Streaks or spots: none, same place, or different places?",
  options: [
    { word: "none", value: { place: "nothing" } },
    { word: "same place", value: { place: "same" } },
    { word: "different places", value: { place: "different" } },
    SKIP,
  ],
};

const inNumbers = (about: "edge" | "grey", what: string): LookStep => ({
  about,
  slot: "rgb",
  title: `Scanner on fixed settings, no correction: red, green, blue of ${what}? Like 201 128 90.`,
  say: `Red, green, blue of ${what}?`,
  options: [SKIP],
});
