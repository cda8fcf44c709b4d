import { expect, test } from "vitest";
import { coveredBy, reelOf, rollOf, small } from "../../../test/support/evenings.ts";
import { seeded } from "../../../test/support/seeded.ts";
import { demandOf, fitter, volumeFor } from "./fit-tank.ts";
import { type FilmFormat, filmFormats } from "./load.ts";

// Fills a person reads under a tank; the sizes are common practice, no source: a plastic 35 mm reel
// about 290 to 300 mL, a 120 reel about 500 mL.
const tank = {
  layouts: [[reelOf(small, 300), reelOf(small, 300)], [reelOf(["120", "220"], 500, 2)]],
};

test.each<{ film: FilmFormat[]; ml: number | undefined }>([
  { film: [], ml: 0 },
  { film: ["135-36"], ml: 300 },
  { film: ["135-36", "135-24"], ml: 600 },
  { film: ["135-36", "135-36", "135-36"], ml: undefined },
  { film: ["120"], ml: 500 },
  { film: ["120", "120"], ml: 500 },
  { film: ["120", "220", "120"], ml: undefined },
  { film: ["120", "135-36"], ml: undefined },
  { film: ["4x5"], ml: undefined },
])("$film needs $ml mL", ({ film, ml }) => {
  expect(volumeFor(tank, demandOf(film))).toBe(ml);
});

test("of two reels that take a roll the one with less solution is counted", () => {
  const either = { layouts: [[reelOf(small, 500), reelOf(small, 240)]] };
  expect(volumeFor(either, demandOf(["135-36"]))).toBe(240);
});

test("a reel that takes two formats is kept for the one that has no other", () => {
  const both = { layouts: [[reelOf([...small, "120"], 500), reelOf(small, 300)]] };
  expect(volumeFor(both, demandOf(["135-36", "120"]))).toBe(800);
});

test("a tank whose reels were never told takes nothing", () => {
  expect(volumeFor({ layouts: [] }, demandOf(["120"]))).toBeUndefined();
});

test("the same as trying every place for every roll", () => {
  const chance = seeded(135);
  for (let round = 0; round < 300; round += 1) {
    const some = () => filmFormats.filter(() => chance() < 0.3);
    const layouts = Array.from({ length: 1 + Math.floor(chance() * 2) }, () =>
      Array.from({ length: 1 + Math.floor(chance() * 3) }, () =>
        reelOf(["135-36", ...some()], 200 + 50 * Math.floor(chance() * 8), chance() < 0.3 ? 2 : 1),
      ),
    );
    const film = filmFormats.filter(() => chance() < 0.3).slice(0, 5);
    const rolls = film.map((format, at) => rollOf(`r${at}`, { format }));
    const covers = fitter({ layouts });
    expect(covers(demandOf(film))).toBe(coveredBy({ name: "x", layouts }, rolls));
    expect(covers(demandOf(film))).toBe(volumeFor({ layouts }, demandOf(film)));
  }
});
