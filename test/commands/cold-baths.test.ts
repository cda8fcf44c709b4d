import { expect, test } from "vitest";
import { talk } from "../support/talk.ts";

/** A bath of 5 minutes at 20 °C, in since second 11. TM 11-2323, paras. c and d (read) throughout. */
const fixer = ["use sheet black and white", "use celsius", "start fixer for 5:00", 1, "ready"];
const inFixer = [...fixer, 10, "in"];
const inWash = ["use sheet black and white", "use celsius", "start wash for 5:00", 1, "ready"];

test.each([
  ["a fixer at 15 takes the root of 2 times as long", [...inFixer, 30, "fixer is at 15"], 424.26],
  ["at 10 twice as long", [...inFixer, 30, "temperature 10"], 600],
  ["at 20 as long as planned", [...inFixer, 30, "temperature 20"], 300],
  ["at 23 no shorter", [...inFixer, 30, "temperature 23"], 300],
  ["a wash at 10 (50 °F) twice as long", [...inWash, 10, "in", 30, "temperature 10"], 600],
  ["read before it is poured, too", [...fixer, "fixer is at 15"], 424.26],
  ["the coldest counts", [...inFixer, 30, "temperature 15", 60, "temperature 16"], 424.26],
  ["struck, it is as planned again", [...inFixer, 30, "temperature 15", "strike 15"], 300],
])("%s", (_, lines, time) => {
  expect(talk(undefined, ...lines).stage?.time).toBeCloseTo(time, 1);
});

test("warmed before it is poured, the last reading counts", () => {
  const { stage } = talk(undefined, ...fixer.slice(0, 3), "fixer is at 15", 60, "fixer is at 20");
  expect(stage?.time).toBe(300);
});

test("a bath planned cold is not made longer twice", () => {
  const planned = ["use sheet black and white", "use celsius", "start fixer for 5:00 at 15"];
  const { stage } = talk(undefined, ...planned, 1, "ready", 10, "in", 30, "temperature 15");
  expect(stage?.time).toBeCloseTo(424.26, 1);
  const colder = talk(undefined, ...planned, 1, "ready", 10, "in", 30, "temperature 10");
  expect(colder.stage?.time).toBeCloseTo(600, 1);
});

test("it says how much longer, until when, and by which rule; why and summary have it", () => {
  const lines = [...inFixer, 30, "fixer is at 15"];
  const { reply, values } = talk(undefined, ...lines);
  expect(reply.title).toContain("2:04 longer, 7:04 in all");
  expect(reply.lines.join(" ")).toContain("TM 11-2323");
  expect(values.change_s).toBeCloseTo(124.26, 1);
  expect(talk(undefined, ...lines, "why").reply.lines.join(" ")).toContain("below 20 °C");
  expect(talk(undefined, ...lines, "summary").reply.lines.join("\n")).toContain("5:00 became 7:04");
});

test("colder than the rule goes nothing is worked out, and it says so", () => {
  const { reply, stage } = talk(undefined, ...inWash, 10, "in", 30, "wash is at 8");
  expect(reply.lines.join(" ")).toContain("ends at 10 °C");
  expect(stage?.time).toBe(300);
});

test("once it is poured out only what it needed is told", () => {
  const { reply, stage } = talk(undefined, ...inFixer, 296, "fixer is at 15");
  expect(stage?.time).toBe(300);
  expect(reply.lines.join(" ")).toContain("it needs 7:04");
});

test("no cold rule is for a colour process, and a rehearsal has water in it", () => {
  const colour = talk(
    undefined,
    "use celsius",
    "start fixer",
    1,
    "ready",
    10,
    "in",
    "fixer is at 33",
  );
  expect(colour.stage?.time).toBe(colour.stage?.timeMeant ?? colour.stage?.time);
  const dry = talk(
    undefined,
    "use sheet black and white",
    "rehearse fixer for 5:00",
    1,
    "ready",
    9,
    "in",
    "fixer is at 15",
  );
  expect(dry.stage?.time).toBe(300);
});
