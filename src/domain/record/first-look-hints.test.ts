import { expect, test } from "vitest";
import { at } from "../../../test/support/runs.ts";
import type { FirstLook, Rgb } from "./first-look.ts";
import { firstLookHints } from "./first-look-hints.ts";

const looked = (look: Omit<FirstLook, "at">, before: readonly Rgb[] = []) =>
  firstLookHints({ at: at(0), ...look }, before);
const rgb = (red: number, green: number, blue: number, most = 255): Rgb => ({
  red,
  green,
  blue,
  most,
});

/** Job-map, section 8: its rows, with the sources named there. */
test.each([
  { look: { edgeNumbers: "crisp" as const }, says: /speak for the process/, from: /factory/ },
  { look: { edgeNumbers: "faint" as const }, says: /weak or short development/, from: /factory/ },
  { look: { edgeNumbers: "missing" as const }, says: /may not have worked/, from: /factory/ },
  { look: { clearParts: "cloudy" as const }, says: /may mean that fixing/, from: /TG2044-1/ },
  { look: { rebate: "fogged" as const }, says: /light in the tank/, from: /fotoartbook/ },
  { look: { sameOnAll: false }, says: /that film, not to the bath/, from: /no source/ },
])("$look says $says", ({ look, says, from }) => {
  const [hint] = looked(look);
  expect(hint?.text).toMatch(says);
  expect(hint?.source).toMatch(from);
});

test("what is sound, or has no one cause, makes no claim with a source", () => {
  expect(
    looked({ clearParts: "clear", rebate: "sound", sameOnAll: true, place: "nothing" }),
  ).toEqual([]);
  expect(looked({ clearParts: "tinted" })[0]?.source).toBe(null);
});

test("an edge alone says nothing; beside earlier ones only how far it is from them", () => {
  const [alone] = looked({ edge: rgb(200, 120, 80) });
  expect(alone).toMatchObject({ source: null });
  expect(alone?.text).toContain("Alone it says nothing");
  const before = [rgb(200, 120, 80), rgb(202, 122, 82), rgb(198, 118, 40_000, 65_535)];
  expect(looked({ edge: rgb(201, 121, 81) }, before)[0]?.text).toContain("close to your last 2");
  // 120 + 26 is 10 % of 255 above the middle of the two of the same scale.
  expect(looked({ edge: rgb(201, 147, 81) }, before)[0]?.text).toContain("green lighter by 10 %");
});

test("a grey is told by its numbers against their mean, never by the name of a colour cast", () => {
  expect(looked({ grey: rgb(120, 121, 119) })[0]?.text).toContain("close together");
  const [hint] = looked({ grey: rgb(160, 120, 110) });
  expect(hint?.text).toContain("red above the mean");
  expect(hint?.text).not.toMatch(/magenta|cyan|yellow|cast/);
});
