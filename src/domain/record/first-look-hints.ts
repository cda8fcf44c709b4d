import { plain } from "../units/show.ts";
import type { FirstLook, Rgb } from "./first-look.ts";

export type Hint = { readonly text: string; readonly source: string | null };

const NUMBERS =
  "Tanguay Photo Mag, Good exposure and development (read in excerpt): edge numbers are printed at the factory";
const FIXING =
  "Kodak theory guide TG2044-1, p. 30, and NAVEDTRA 14209, fixing (read in excerpts): milky clear parts";
const FOGGED = "fotoartbook.net, fog over the edges (read in excerpt)";
const MATES = "worked out from what a tank shares, no source";

/** A ratio of scanner levels beyond which we mention it: our own bound, no source. */
const MENTION = 0.05;

/**
 * What a first look hints at, most telling first, each with where that is known from. `before` are
 * the unexposed edges of earlier films of the same process, scanned on the same scale.
 */
export function firstLookHints(look: FirstLook, before: readonly Rgb[]): readonly Hint[] {
  const hints: Hint[] = [];
  const say = (text: string, source: string | null): void => void hints.push({ text, source });
  switch (look.edgeNumbers) {
    case "crisp":
      say("Crisp numbers speak for the process: thin pictures would be the exposure.", NUMBERS);
      break;
    case "faint":
      say("Faint numbers speak for weak or short development rather than the camera.", NUMBERS);
      break;
    case "missing":
      say(
        "No numbers at all: the developer may not have worked, or a later bath came first.",
        NUMBERS,
      );
      break;
    case undefined:
  }
  if (look.clearParts === "cloudy") {
    say(
      "Cloudy clear parts may mean that fixing was not complete; fixing again may clear them.",
      FIXING,
    );
  }
  if (look.clearParts === "tinted") {
    say("A tint has several causes; one look does not tell them apart.", null);
  }
  if (look.rebate === "fogged") {
    say("A fogged rebate speaks for light in the tank or in loading, outside the camera.", FOGGED);
  }
  if (look.sameOnAll === false) {
    say("One roll that differs in a shared bath points to that film, not to the bath.", MATES);
  }
  if (look.edge !== undefined) say(...edgeWords(look.edge, before));
  if (look.grey !== undefined) say(...greyWords(look.grey));
  return hints;
}

const shown = ({ red, green, blue, most }: Rgb): string =>
  `red ${plain(red, 0)}, green ${plain(green, 0)}, blue ${plain(blue, 0)} of ${plain(most, 0)}`;

/** Against the own log alone: what a base should measure depends on film, lamp and scanner. */
function edgeWords(edge: Rgb, before: readonly Rgb[]): readonly [string, string | null] {
  const same = before.filter(({ most }) => most === edge.most);
  if (same.length === 0) {
    return [
      `Edge ${shown(edge)}: kept to compare the next film with, on the same scanner settings. Alone it says nothing.`,
      null,
    ];
  }
  const apart = (["red", "green", "blue"] as const).flatMap((channel) => {
    const usual = median(same.map((one) => one[channel]));
    const off = (edge[channel] - usual) / edge.most;
    return Math.abs(off) < MENTION
      ? []
      : [`${channel} ${off > 0 ? "lighter" : "darker"} by ${plain(Math.abs(off) * 100, 0)} %`];
  });
  const count = `your last ${same.length === 1 ? "one" : same.length}`;
  return apart.length === 0
    ? [`Edge ${shown(edge)}: close to ${count}.`, "this bench's own log"]
    : [
        `Edge ${shown(edge)}: against ${count}, ${apart.join(", ")}. Scanner settings, film or process may do that.`,
        "this bench's own log",
      ];
}

function greyWords(grey: Rgb): readonly [string, string | null] {
  const mean = (grey.red + grey.green + grey.blue) / 3;
  const apart = (["red", "green", "blue"] as const)
    .map((channel) => ({ channel, off: (grey[channel] - mean) / grey.most }))
    .filter(({ off }) => Math.abs(off) >= MENTION);
  const text =
    apart.length === 0
      ? `Grey ${shown(grey)}: the three are close together.`
      : `Grey ${shown(grey)}: ${apart.map(({ channel, off }) => `${channel} ${off > 0 ? "above" : "below"} the mean`).join(", ")}. Scan and conversion come before chemistry; compare a second grey, lighter or darker.`;
  return [
    text,
    "photrio.com thread 37288 and brodie-tyrrell.org (read in excerpts): greys compared at two densities, by numbers",
  ];
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((one, other) => one - other);
  const half = Math.floor(sorted.length / 2);
  const high = sorted[half] ?? 0;
  return sorted.length % 2 === 1 ? high : ((sorted[half - 1] ?? high) + high) / 2;
}
