import { expect, test } from "vitest";
import { clockLine } from "./clock-line.ts";

const running = { kind: "running", tank: "North", bath: "developer", left_s: 163 } as const;

test.each([
  { columns: 80, moment: running, line: "[19:30:05  North developer 2:43 left] > " },
  { columns: 40, moment: running, line: "[developer 2:43 left] > " },
  { columns: 30, moment: running, line: "[2:43 left] > " },
  { columns: 20, moment: running, line: "> " },
  {
    columns: 80,
    moment: { ...running, left_s: -4 },
    line: "[19:30:05  North developer over by 4 s] > ",
  },
  { columns: 80, moment: { kind: "no-clock" } as const, line: "[19:30:05  no clock running] > " },
  { columns: 30, moment: { kind: "no-clock" } as const, line: "[19:30:05] > " },
])("on $columns columns the prompt is $line", ({ columns, moment, line }) => {
  expect(clockLine("19:30:05", moment, columns)).toBe(line);
});
