/** The speed we promise, measured on this machine: a table, then the same as JSON (`--json`: JSON alone). */
import { availableParallelism, loadavg } from "node:os";
import { benchBottles } from "./bottles.ts";
import { benchDiscord } from "./discord.ts";
import { benchEvenings } from "./evenings.ts";
import { benchExport } from "./export.ts";
import { benchHardSentences } from "./hard-sentences.ts";
import { benchHearing, benchKeeping, type Hearing } from "./hearing.ts";
import { benchLogSearch } from "./log-search.ts";
import { benchLongWork } from "./long-work.ts";
import { benchManyRuns } from "./many-runs.ts";
import { benchCron, benchTimeouts, benchWriters } from "./peers.ts";
import { benchPictures } from "./pictures.ts";
import { benchMemory, benchStart } from "./process.ts";
import { benchReminders } from "./reminders.ts";
import { benchReplan } from "./replan.ts";
import { benchScheduler } from "./scheduler.ts";
import { speechRows } from "./speech/rows.ts";
import { benchStore, largeBench } from "./store.ts";
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
const hard = await benchHardSentences();
const keeping = await benchKeeping();
const cues = await benchScheduler();
const many = await benchManyRuns();
const store = await benchStore();
const bottles = await benchBottles();
const reminders = await benchReminders();
const replan = await benchReplan();
// `--speech`: every phrase by every voice at every pace, an hour and more; else a sample, a quarter
// of an hour; `--no-speech`: none of it.
const speech = process.argv.includes("--no-speech")
  ? []
  : await speechRows(process.argv.includes("--speech"));
const pictures = await benchPictures();
const search = await benchLogSearch();
const exporting = await benchExport();
const long = await benchLongWork();

const evenings = benchEvenings();
const timeouts = await benchTimeouts();
const cron = await benchCron();
const writers = await benchWriters(largeBench());
const discord = await benchDiscord();
const voiceCue = await benchVoiceCue();

const rows: readonly Row[] = [
  ...hearingRows("sentence to reply", hearing, [1, 5]),
  {
    what: `${hard.sentences} spoilt and hard sentences to their replies, p99.9`,
    unit: "ms",
    measured: hard.p999,
    promised: 20,
  },
  { what: "of these the slowest", unit: "ms", measured: hard.max },
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
  ...speech,
  { what: "picture of a session, p50", unit: "ms", measured: pictures.p50, promised: 300 },
  { what: "picture of a session, worst", unit: "ms", measured: pictures.max },
  { what: "cues while pictures are drawn, late, worst", unit: "ms", measured: pictures.late },
  { what: `search over ${search.runs} runs, p50`, unit: "ms", measured: search.p50 },
  { what: `search over ${search.runs} runs, p99`, unit: "ms", measured: search.p99, promised: 50 },
  { what: `search over ${search.runs} runs, the first`, unit: "ms", measured: search.first },
  {
    what: `export of ${exporting.runs} runs, progress told ${exporting.told} times`,
    unit: "s",
    measured: exporting.seconds,
    promised: 5,
  },
  { what: "longest wait of others while exporting", unit: "ms", measured: exporting.stall },
  // By the time of the thread's own processor, in steps of 4 ms: what else runs here is not in it.
  ...long.flatMap(({ what, first, after, idle }): readonly Row[] => [
    { what: `cue thread held, ${what}`, unit: "ms", measured: after.turn, promised: 10 },
    { what: "... the first time", unit: "ms", measured: first.turn },
    {
      what: "... by the clock, beyond doing nothing",
      unit: "ms",
      measured: Math.max(0, after.delay - idle.delay),
    },
  ]),
  { what: "an evening of 12 rolls, p95", unit: "ms", measured: evenings.twelve, promised: 200 },
  {
    what: "an evening of 12 rolls, several bottles, p95",
    unit: "ms",
    measured: evenings.twelveOfSeveral,
    promised: 200,
  },
  { what: "an evening of 60 rolls, p95", unit: "ms", measured: evenings.sixty, promised: 200 },
  { what: "peer: 10,000 setTimeout, given early", unit: "cues", measured: timeouts.early },
  { what: "peer: 10,000 setTimeout, late, p99", unit: "ms", measured: timeouts.p99 },
  { what: "peer: 10,000 setTimeout, late, worst", unit: "ms", measured: timeouts.max },
  { what: "peer: 100 jobs of node-cron, late, p99", unit: "ms", measured: cron.p99 },
  { what: "peer: 100 jobs of node-cron, late, worst", unit: "ms", measured: cron.max },
  { what: "peer: lowdb as it comes (no sync), p50", unit: "ms", measured: writers.lowdb.p50 },
  { what: "peer: lowdb as it comes (no sync), p99", unit: "ms", measured: writers.lowdb.p99 },
  { what: "peer: write-file-atomic, p50", unit: "ms", measured: writers.atomic.p50 },
  { what: "peer: write-file-atomic, p99", unit: "ms", measured: writers.atomic.p99 },
  {
    what: "Discord, message to the request that answers it, p50",
    unit: "ms",
    measured: discord.reply.p50,
    promised: 5,
  },
  {
    what: "Discord, message to the request that answers it, p99",
    unit: "ms",
    measured: discord.reply.p99,
    promised: 20,
  },
  {
    what: `Discord, ${discord.runs} runs, cue due to its request, p50`,
    unit: "ms",
    measured: discord.cue.p50,
  },
  {
    what: `Discord, ${discord.runs} runs, cue due to its request, p99`,
    unit: "ms",
    measured: discord.cue.p99,
    promised: 15,
  },
  {
    what: `Discord, ${discord.benches} benches in one process`,
    unit: "MB",
    measured: discord.resident,
    promised: 400,
  },
  {
    what: "Discord, socket back to the first cue",
    unit: "ms",
    measured: discord.reconnect,
    promised: 1000,
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
  slowest: {
    alone: hearing.slowest,
    hard: hard.slowest,
    kept: keeping.slowest,
    search: search.slowest,
  },
  commands: bottles.byCommand,
};
if (!process.argv.includes("--json")) process.stdout.write(`${table(rows)}\n\n`);
process.stdout.write(`${JSON.stringify(result, undefined, 2)}\n`);
if (rows.some((row) => verdict(row) === "missed")) process.exitCode = 1;
