import fc from "fast-check";
import { expect, test } from "vitest";
import { stageOf } from "../../../test/support/runs.ts";
import { beats } from "../timing/stage-clock.ts";
import { seconds } from "../units/quantity.ts";
import { agitationFor, beatOffsets, movements } from "./agitation.ts";
import type { Bath } from "./sheet.ts";

const sheet = { kind: "sheet", source: "garden" } as const;
const habit = { kind: "common practice" } as const;
const bathOf = (change: Partial<Bath> = {}): Bath => ({
  name: "developer",
  kind: "developer",
  sense: "exact",
  ...change,
});
const cadence: NonNullable<Bath["agitation"]> = {
  initial: { value: seconds(20), origin: sheet },
  every: { value: seconds(40), origin: habit },
  each: { value: seconds(8), origin: habit },
};
const time = seconds(195);

test.each(["inversion", "stick"] as const)(
  "%s keeps the sheet's cadence and its weaker origin",
  (movement) => {
    expect(agitationFor(bathOf({ agitation: cadence }), movement, time)).toEqual({
      initial: 20,
      every: 40,
      each: 8,
      origin: habit,
    });
  },
);

test("a sheet that names only the first agitation has no later beats", () => {
  const agitation = { initial: cadence.initial };
  const stage = agitationFor(bathOf({ agitation }), "inversion", time);
  expect(stage).toEqual({ initial: 20, origin: sheet });
});

test("where a sheet says nothing, nothing is made up", () => {
  expect(agitationFor(bathOf(), "inversion", time, "C-41")).toBeUndefined();
  expect(agitationFor(bathOf({ kind: "fixer" }), "stick", time, "black-and-white")).toBeUndefined();
});

test("black and white: 30 s, then 5 s every minute: NAVEDTRA 14209, Photography (Basic), small-tank steps 3-5 (read)", () => {
  expect(agitationFor(bathOf(), "inversion", time, "black-and-white")).toEqual({
    initial: 30,
    every: 60,
    each: 5,
    origin: {
      kind: "published",
      source: "NAVEDTRA 14209, Photography (Basic), small-tank steps 3-5 (read)",
    },
  });
});

test("a drum turns all the time, whatever the sheet says of inversions: common practice, no source", () => {
  for (const kind of ["developer", "blix", "wash"]) {
    const stage = agitationFor(bathOf({ kind, agitation: cadence }), "rotary", time);
    expect(stage).toEqual({ initial: 195, origin: habit });
    expect(beats(stageOf({ agitation: stage }))).toEqual([0]);
  }
});

test("sheet film on a rack, developer: 4 to 5 s, rest 10 s, a lift of 2 to 3 s every 10 s: SS0514, p. 2-13, para. a(1)-(2) (read)", () => {
  const stage = agitationFor(bathOf({ agitation: cadence }), "rack", time);
  expect(stage).toEqual({
    initial: 4.5,
    rest: 10,
    every: 10,
    each: 2.5,
    origin: {
      kind: "published",
      source: "SS0514 Basic Color Photography, p. 2-13, para. a(1)-(2) (read)",
    },
  });
  const offsets = stage && beatOffsets(stage, seconds(60));
  expect(offsets).toEqual([0, 14.5, 24.5, 34.5, 44.5, 54.5]);
});

test("sheet film in other baths: a lift at the start, then one every 15 s: SS0514, p. 2-13, para. a(3)-(5) (read)", () => {
  const stage = agitationFor(bathOf({ kind: "bleach" }), "rack", time);
  expect(stage).toMatchObject({ initial: 2.5, every: 15, each: 2.5 });
  expect(stage && beatOffsets(stage, seconds(60))).toEqual([0, 15, 30, 45]);
});

test("a running wash needs the first lift alone: SS0514, p. 2-13, para. a(5) (read)", () => {
  const stage = agitationFor(bathOf({ kind: "wash" }), "rack", time);
  expect(stage && beatOffsets(stage, time)).toEqual([0]);
});

test("without a rest the beats are those of the stage clock", () => {
  const length = (most: number) => fc.integer({ min: 1, max: most }).map(seconds);
  const cadences = fc.record({ initial: length(300), every: length(120), each: length(20) });
  const same = fc.property(cadences, fc.integer({ min: 11, max: 900 }), (one, whole) => {
    const agitation = { ...one, origin: habit };
    const stage = stageOf({ time: seconds(whole), drain: seconds(10), agitation });
    expect(beatOffsets(agitation, seconds(whole - 10))).toEqual(beats(stage));
  });
  fc.assert(same);
});

test("however film is moved, beats come in order and are over before pouring out", () => {
  const kinds = fc.constantFrom("developer", "fixer", "wash", "stop");
  const ordered = fc.property(
    kinds,
    fc.constantFrom(...movements),
    fc.integer({ min: 11, max: 2000 }),
    (kind, movement, until) => {
      const stage = agitationFor(bathOf({ kind, agitation: cadence }), movement, seconds(until));
      if (stage === undefined) throw new Error("no agitation");
      const offsets = beatOffsets(stage, seconds(until));
      offsets.slice(1).forEach((offset, n) => {
        expect(offset).toBeGreaterThan(offsets[n] ?? 0);
        expect(offset + (stage.each ?? 0)).toBeLessThanOrEqual(until);
      });
    },
  );
  fc.assert(ordered);
});

test("a cadence that would never end, or never begin, gives the first movement alone", () => {
  const never = { initial: seconds(5), every: seconds(0), origin: habit };
  expect(beatOffsets(never, seconds(100))).toEqual([0]);
});
