/** The speed we promise, measured on this machine: a table, then the same as JSON (`--json`: JSON alone). */
import { availableParallelism, loadavg } from "node:os";
import { benchBottles } from "./bottles.ts";
import { benchHearing, benchKeeping, type Hearing } from "./hearing.ts";
import { benchManyRuns } from "./many-runs.ts";
import { benchMemory, benchStart } from "./process.ts";
import { benchReminders } from "./reminders.ts";
import { benchReplan } from "./replan.ts";
import { benchScheduler } from "./scheduler.ts";
import { benchStore } from "./store.ts";
import { benchVoiceCue } from "./voice-cue.ts";

type Row = {
  readonly what: string;
  readonly unit: string;
  readonly measured: number | undefined;
  /** At most this; missing: measured for the record. */
  readonly promised?: number;
};

const verdict = ({ measured, promised }: Row): string => {
  if (promised === undefined) return "for the record";
  if (measured === undefined) return "not measured here";
  return measured <= promised ? "kept" : "missed";
};

const hearingRows = (
  what: string,
  { p50, p99, max }: Hearing,
  promises: readonly number[],
): Row[] =>
  [
    { what: `${what}, p50`, measured: p50, promised: promises[0] },
    { what: `${what}, p99`, measured: p99, promised: promises[1] },
    { what: `${what}, worst`, measured: max },
  ].map(({ promised, ...row }) => ({
    ...row,
    unit: "ms",
    ...(promised === undefined ? {} : { promised }),
  }));

const said = (row: Row, figure: number | undefined): string =>
  figure === undefined ? "-" : `${Number(figure.toPrecision(3))} ${row.unit}`.trimEnd();

function table(rows: readonly Row[]): string {
  const cells = [
    ["what", "promised", "measured", "verdict"],
    ...rows.map((row) => [
      row.what,
      row.promised === undefined ? "" : `<= ${said(row, row.promised)}`,
      said(row, row.measured),
      verdict(row),
    ]),
  ];
  const widths = [0, 1, 2, 3].map((at) => Math.max(...cells.map((row) => row[at]?.length ?? 0)));
  return cells
    .map((row) => row.map((cell, at) => cell.padEnd(widths[at] ?? 0)).join("  "))
    .join("\n");
}

/** Processes that wanted to run in the last minute, by core: above 1, no figure below means much. */
const busy = (loadavg()[0] ?? 0) / availableParallelism();

// One after the other: they would slow each other down.
const start = await benchStart();
const memory = await benchMemory();
const hearing = await benchHearing();
const keeping = await benchKeeping();
const cues = await benchScheduler();
const many = await benchManyRuns();
const store = await benchStore();
const bottles = await benchBottles();
const reminders = await benchReminders();
const replan = await benchReplan();
const voiceCue = await benchVoiceCue();

const rows: readonly Row[] = [
  ...hearingRows("sentence to reply", hearing, [1, 5]),
  ...hearingRows("sentence to reply, kept on disk", keeping, []),
  { what: "process start to first reply, p50", unit: "ms", measured: start.p50, promised: 500 },
  { what: "process start to first reply, worst", unit: "ms", measured: start.max },
  { what: `${cues.cues} cues, given early`, unit: "cues", measured: cues.early, promised: 0 },
  { what: `${cues.cues} cues, late, p99`, unit: "ms", measured: cues.p99, promised: 5 },
  { what: `${cues.cues} cues, late, worst`, unit: "ms", measured: cues.max },
  {
    what: `500 runs, ${many.cues} cues, given early`,
    unit: "cues",
    measured: many.early,
    promised: 0,
  },
  { what: `500 runs, ${many.cues} cues, late, p99`, unit: "ms", measured: many.p99, promised: 5 },
  { what: `500 runs, ${many.cues} cues, late, worst`, unit: "ms", measured: many.max },
  { what: "memory of a running bench", unit: "MB", measured: memory.resident, promised: 120 },
  { what: "commit of a large bench, p50", unit: "ms", measured: store.p50 },
  { what: "commit of a large bench, p99", unit: "ms", measured: store.p99 },
  { what: "reading a large bench back", unit: "ms", measured: store.loadMs },
  {
    what: `daily look over ${reminders.benches} benches`,
    unit: "s",
    measured: reminders.lookSeconds,
    promised: 5,
  },
  {
    what: `${reminders.pending} pending reminders`,
    unit: "MB",
    measured: reminders.pendingMB,
    promised: 200,
  },
  { what: "commands, 200 bottles, 2,000 rolls, 500 runs, p50", unit: "ms", measured: bottles.p50 },
  {
    what: "commands, 200 bottles, 2,000 rolls, 500 runs, p99",
    unit: "ms",
    measured: bottles.p99,
    promised: 10,
  },
  {
    what: `of these the slowest, p99: ${bottles.slowest.command}`,
    unit: "ms",
    measured: bottles.slowest.p99,
  },
  { what: "plan tonight of that bench, p50", unit: "ms", measured: bottles.plan.p50 },
  { what: "plan tonight of that bench, p99", unit: "ms", measured: bottles.plan.p99 },
  {
    what: `re-planning a run with ${replan.readings} readings, p99`,
    unit: "ms",
    measured: replan.p99,
    promised: 5,
  },
  {
    what: `re-planning a run with ${replan.readings} readings, worst`,
    unit: "ms",
    measured: replan.max,
  },
  { what: "cue in a call, to its first packet, p50", unit: "ms", measured: voiceCue?.p50 },
  {
    what: "cue in a call, to its first packet, p99",
    unit: "ms",
    measured: voiceCue?.p99,
    promised: 40,
  },
  { what: "cue in a call, to its first packet, worst", unit: "ms", measured: voiceCue?.max },
  { what: "load of this machine before, by core", unit: "", measured: busy },
];
const result = {
  rows: rows.map((row) => ({ ...row, verdict: verdict(row) })),
  slowest: { alone: hearing.slowest, kept: keeping.slowest },
  commands: bottles.byCommand,
};
if (!process.argv.includes("--json")) process.stdout.write(`${table(rows)}\n\n`);
process.stdout.write(`${JSON.stringify(result, undefined, 2)}\n`);
if (rows.some((row) => verdict(row) === "missed")) process.exitCode = 1;
