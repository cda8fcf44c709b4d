import { expect, test } from "vitest";
import { bottleOf } from "../../../test/support/bottles.ts";
import { instant, millilitres, units } from "../units/quantity.ts";
import { contentsOf, fillNow } from "./bottle.ts";
import { freshClearing, isSpent } from "./clip-test.ts";
import { pourTogether } from "./pour-together.ts";

const target = bottleOf({ contents: millilitres(600), used: units(1), mixedOn: "2026-11-10" });
const from = bottleOf({ id: "b2", name: "Banjo", used: units(4), mixedOn: "2026-11-02" });

test("the older date and the harder work hold for the whole", () => {
  const joined = pourTogether(target, from, millilitres(350), "2026-11-12");
  expect(joined).toMatchObject({ mixedOn: "2026-11-02", used: 4, mixedFrom: ["b2"] });
  expect([contentsOf(joined), fillNow(joined)]).toEqual([950, "full"]);
});

test("an assumed date and a mark come along", () => {
  const doubtful = {
    ...from,
    dateAssumed: "not before then",
    suspect: { since: instant(0), why: "smell" },
  };
  const joined = pourTogether(target, doubtful, millilitres(100), "2026-11-12");
  expect(joined.dateAssumed).toBe("not before then");
  expect(joined.suspect?.why).toBe("Banjo went into it, which is suspect");
});

test("fixer is out when its clearing time has doubled: NAVEDTRA 14209, p. 249 (read in excerpt)", () => {
  const tests = [40, 30, 55].map((clearing) => ({
    at: instant(0),
    on: "2026-11-12",
    by: "Ines",
    passed: true,
    clearing,
  }));
  expect(freshClearing({ tests })).toBe(30);
  expect(freshClearing({})).toBeUndefined();
  expect(isSpent(59, 30)).toBe(false);
  expect(isSpent(60, 30)).toBe(true);
});
