import { expect, test } from "vitest";
import { readWhole } from "../../../test/support/reading.ts";
import { readClock } from "./clock-time.ts";

const sure = (hour: number, minute = 0) => ({ hour, minute });
const unsure = (hour: number, minute = 0) => ({ hour, minute, ambiguous: true });

test.each([
  ["at 7:45pm", sure(19, 45)],
  ["7:45 p.m.", sure(19, 45)],
  ["19:30", sure(19, 30)],
  ["07:45", sure(7, 45)],
  ["7:45", { ...unsure(7, 45), figures: true }],
  ["08", sure(8)],
  ["8", unsure(8)],
  ["10", unsure(10)],
  ["7 pm", sure(19)],
  ["seven pm", sure(19)],
  ["12 am", sure(0)],
  ["12 pm", sure(12)],
  ["half past seven", unsure(7, 30)],
  ["half past seven in the evening", sure(19, 30)],
  ["half seven", unsure(7, 30)],
  ["quarter to eight", unsure(7, 45)],
  ["a quarter past 8 pm", sure(20, 15)],
  ["ten past six", unsure(6, 10)],
  ["twenty minutes to one", unsure(12, 40)],
  ["seven o'clock", unsure(7)],
  ["seven thirty", unsure(7, 30)],
  ["seven oh five am", sure(7, 5)],
  ["tonight", "nothing"],
  ["eight tonight", sure(20)],
  ["noon", sure(12)],
  ["midnight", sure(0)],
  ["0:15", sure(0, 15)],
  ["half", "nothing"],
  ["pm", "nothing"],
])("%j", (phrase, value) => {
  expect(readWhole(readClock, phrase)).toEqual(value);
});

test.each(["25:10", "19:75", "at 99"])("%j is refused", (phrase) => {
  expect(readWhole(readClock, phrase)).toHaveProperty("unreadable");
});
