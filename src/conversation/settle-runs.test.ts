import { expect, test } from "vitest";
import { noon, talk } from "../../test/support/talk.ts";
import { keptApart } from "../commands/keep-apart.ts";
import type { Sheet } from "../domain/process/sheet.ts";
import { followBottles } from "../domain/session/follow-bottles.ts";
import { keepApart } from "../domain/session/keep-apart.ts";
import { celsius, later, millilitres, seconds } from "../domain/units/quantity.ts";
import { answer } from "../reply/reply.ts";
import { settleByClock, settleRuns } from "./settle-runs.ts";

const origin = { kind: "invented" } as const;

/** Invented: a prebath of 5:00 before a developer of 3:20 that takes a tenth longer for each unit done. */
const mill: Sheet = {
  id: "mill",
  name: "mill",
  called: [],
  process: "C-41",
  invented: false,
  baths: [
    { name: "prebath", kind: "prebath", sense: "at least", time: { value: seconds(300), origin } },
    {
      name: "developer",
      kind: "developer",
      sense: "exact",
      mix: {
        total: { value: millilitres(1000), origin },
        startWater: { value: millilitres(700), origin },
        parts: [],
      },
      time: { value: seconds(200), origin },
      temperature: { value: celsius(38), origin },
      reuse: { kind: "percent", percent: 10, compounded: false, origin },
    },
  ],
};

/**
 * North is in its prebath since second 40 and pours developer at 340; South, by itself, wants the
 * same bottle at 335, while each tank has a person of its own.
 */
const apart = [
  "bottle developer 1 litre mixed today",
  "set one person per tank",
  "start mill two rolls of 120 tank north",
  30,
  "north ready",
  10,
  "north in",
  265,
  "start developer one roll of 120 tank south",
] as const;

/** The moment after the last of these. */
const at = later(noon, 305);

const developers = (bench: ReturnType<typeof talk>["bench"]) =>
  Object.values(bench.runs).map(({ stages }) => stages.at(-1)?.time);

test("who pours first decides a time, and a start that is put off decides who pours first", () => {
  // South first: North's two rolls come after its one unit.
  expect(developers(talk(mill, ...apart).bench)).toEqual([220, 200]);
  const { bench, reply } = talk(mill, ...apart, "set one person for all tanks");
  // Put off past North's pour, South comes after its two units: that is known in a second round only.
  expect(developers(bench)).toEqual([200, 240]);
  const text = [reply.title, ...reply.lines].join("\n");
  expect(text).toContain("South is put off");
  expect(text).toMatch(/North: developer 3:20 instead of 3:40/);
  expect(text).toMatch(/South: developer 4:00 instead of 3:20/);
});

test("settled once, nothing more would change", () => {
  const { bench } = talk(mill, ...apart, "set one person for all tanks");
  expect(followBottles(bench, at).retimed).toEqual([]);
  expect(keepApart(bench, at).moved).toEqual([]);
  const again = settleRuns(bench, { reply: answer({ title: "x", say: "x" }), bench }, at);
  expect(again.bench).toBe(bench);
  expect(again.retimed).toEqual([]);
});

test("one round alone would leave the times of the order before", () => {
  const before = talk(mill, ...apart).bench;
  const { serving: _, ...shared } = before;
  const outcome = { reply: answer({ title: "x", say: "x" }), bench: shared };
  const once = keptApart(before, { ...outcome, bench: followBottles(shared, at).bench }, at);
  expect(developers(once.bench ?? before)).toEqual([220, 200]);
  expect(developers(settleRuns(before, outcome, at).bench ?? before)).toEqual([200, 240]);
});

test("by the clock alone the same comes to rest, and each change is told by a cue", () => {
  const before = talk(mill, ...apart).bench;
  const { serving: _, ...shared } = before;
  const { bench, replies } = settleByClock(shared, at);
  expect(developers(bench)).toEqual([200, 240]);
  const cues = replies.map(({ facts }) => facts.cue);
  expect(cues.filter((cue) => cue === "retimed")).toHaveLength(2);
  expect(cues).toContain("put-off");
  expect(settleByClock(bench, at).replies).toEqual([]);
});
