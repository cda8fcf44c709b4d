import { describe, expect, test } from "vitest";
import { at, benchWith, evening, runOf, stageOf } from "../../../test/support/runs.ts";
import type { Bench } from "../session/bench.ts";
import { celsius, later } from "../units/quantity.ts";
import { dayAt, dayNumber } from "./calendar.ts";
import { noLooks } from "./looks.ts";
import { noticesOf } from "./notices.ts";

const DAY = 86_400;
const read = (...names: readonly (string | undefined)[]): Bench =>
  benchWith(
    runOf([stageOf()], {
      readings: names.map((name, n) => ({
        at: at(60 + n),
        stage: 0,
        bath: "developer",
        temperature: celsius(38),
        ...(name === undefined ? {} : { thermometer: name }),
      })),
    }),
  );
const check = { at: evening, read: celsius(38.4), reference: celsius(38) };

/** What is said of thermometers so many days after that evening. */
function said(bench: Bench, days = 0): readonly string[] {
  const today = dayAt(later(evening, days * DAY), bench.zone);
  return noticesOf(bench, today, noLooks)
    .filter(({ kind, from }) => kind === "thermometer" && from <= dayNumber(today))
    .map(({ text }) => text());
}

describe("thermometers that were read and never checked", () => {
  test("one with a name is asked for by its name, whatever is known of another", () => {
    const thermometers = { red: { name: "red", checks: [check] } };
    expect(said({ ...read("round"), thermometers })).toEqual([
      expect.stringContaining("Check the round thermometer"),
    ]);
    expect(said({ ...read("red"), thermometers })).toEqual([]);
  });

  test("a check of the thermometer without a name does not speak for one with a name", () => {
    const bench = read("round");
    const checked = { ...bench, daily: { ...bench.daily, thermometerOn: "2026-11-28" } };
    expect(said(checked)).toEqual([expect.stringContaining("Check the round thermometer")]);
  });

  test("one known by its name alone is unchecked; the reference never is", () => {
    const round = { name: "round", checks: [] };
    expect(said({ ...read("round"), thermometers: { round } })).toHaveLength(1);
    const reference = { ...round, isReference: true };
    expect(said({ ...read("round"), thermometers: { round: reference } })).toEqual([]);
  });

  test("without a name it is asked for while no check of any is noted", () => {
    const bench = read(undefined);
    expect(said(bench)).toEqual([expect.stringContaining("Check the thermometer against")]);
    expect(said({ ...bench, thermometers: { red: { name: "red", checks: [check] } } })).toEqual([]);
  });

  test("it is said again every month, and several stand apart", () => {
    const bench = read("round", "square");
    const today = dayAt(later(evening, 40 * DAY), bench.zone);
    const keys = noticesOf(bench, today, noLooks).map(({ key }) => key);
    expect(keys).toEqual([
      "thermometer:round:unchecked:1",
      "thermometer:round:unchecked:2",
      "thermometer:square:unchecked:1",
      "thermometer:square:unchecked:2",
    ]);
    expect(said(bench, 40)).toHaveLength(2);
  });

  test("runs in files of their own speak as well", () => {
    const bench = benchWith();
    const past = {
      id: "run-9",
      title: "old",
      tank: "North",
      plannedAt: evening,
      touched: { bottles: [], sheet: "demo", thermometers: ["round"], film: [] },
    };
    expect(said({ ...bench, pastRuns: [past] })).toHaveLength(1);
  });
});

describe("film nobody has looked at", () => {
  const past = { id: "run-1", title: "t", tank: "North", plannedAt: evening };
  const asked = (bench: Bench, days: number): readonly string[] => {
    const today = dayAt(later(evening, days * DAY), bench.zone);
    return noticesOf(bench, today, noLooks)
      .filter(({ kind, from }) => kind === "look" && from <= dayNumber(today))
      .map(({ text }) => text());
  };

  test("is asked for where its run stands in a file already, for two weeks", () => {
    const bench: Bench = { ...benchWith(), pastRuns: [{ ...past, unseen: evening }] };
    expect([0, 1, 15, 16, 400].map((days) => asked(bench, days).length)).toEqual([0, 1, 1, 0, 0]);
    expect(asked(bench, 1)[0]).toContain("North");
  });

  test("is not asked for where it was seen, or where nobody kept whether it was", () => {
    expect(asked({ ...benchWith(), pastRuns: [past] }, 1)).toEqual([]);
  });
});
