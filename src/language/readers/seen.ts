import type { FirstLook } from "../../domain/record/first-look.ts";
import type { Reading } from "../reader.ts";
import { phrases } from "./phrases.ts";

/** What was seen of a dry film; `skip` leaves the open question out, `scanner` answers in numbers. */
export type Seen = Omit<FirstLook, "at" | "edge" | "grey"> & {
  readonly skip?: true;
  readonly scanner?: true;
};

const sound: Seen = {
  edgeNumbers: "crisp",
  clearParts: "clear",
  rebate: "sound",
  sameOnAll: true,
  place: "nothing",
};

/** Common usage, no source. */
const readOne = phrases<Seen>([
  [sound, "all good, all fine, all well, all ok, good, fine, looks good, looks fine, perfect"],
  [
    { edgeNumbers: "crisp" },
    "crisp, sharp, numbers crisp, crisp numbers, edge numbers crisp, crisp edge numbers, edge numbers are crisp, numbers are crisp",
  ],
  [
    { edgeNumbers: "faint" },
    "faint, weak, pale, numbers faint, faint numbers, edge numbers faint, faint edge numbers, edge numbers are faint, numbers are faint",
  ],
  [
    { edgeNumbers: "missing" },
    "missing, numbers missing, no numbers, no edge numbers, edge numbers missing, edge numbers are missing, numbers are missing",
  ],
  [{ clearParts: "clear" }, "clear, clear parts clear, clear parts are clear"],
  [{ clearParts: "cloudy" }, "cloudy, milky, hazy, clear parts cloudy, clear parts milky"],
  [{ clearParts: "tinted" }, "tinted, stained, a tint, clear parts tinted, clear parts stained"],
  [
    { rebate: "sound" },
    "rebate clean, rebate clear, rebate black, clean rebate, clean, edges clean",
  ],
  [
    { rebate: "fogged" },
    "rebate dark, rebate fogged, dark rebate, fogged, dark, edges dark, lighter",
  ],
  [{ rebate: "fogged" }, "rebate lighter, edges fogged"],
  [
    { sameOnAll: true },
    "same on all, same on all rolls, all the same, all rolls the same, all rolls",
  ],
  [{ sameOnAll: false }, "not on all, only one, only one roll, one roll, not all, differs"],
  [
    { place: "same" },
    "same place, the same place, same place on each frame, the same place on each frame",
  ],
  [{ place: "different" }, "different places, different place, all over, everywhere, random"],
  [{ place: "nothing" }, "none, no streaks, no spots, no streaks or spots, nothing odd, nothing"],
  [{ skip: true }, "skip, do not know, i do not know, no idea, not sure, unsure"],
  [{ scanner: true }, "scanner, by scanner, by numbers, in numbers, by the scanner"],
]);

const linking = new Set(["and", "but", "the", "is", "are", "it", "with", ","]);

/** The slot `{seen}`: one thing seen or several, "crisp, clear and clean". */
export function readSeen(words: readonly string[], from: number): readonly Reading<Seen>[] {
  const readings: Reading<Seen>[] = [];
  let value: Seen = {};
  for (let at = from; at < words.length; ) {
    if (linking.has(words[at] ?? "") && at > from) {
      at += 1;
      continue;
    }
    const one = readOne(words, at)[0];
    if (one === undefined) break;
    value = { ...value, ...one.value };
    at = one.next;
    readings.push({ value, next: at });
  }
  return readings.reverse();
}
