/**
 * A day by a clock that is moved, then an hour by the real one: `npm run soak`. Settings:
 * `--minutes 60` of real time, `--benches 200`, `--hours 24` of moved time; 0 leaves one out.
 * `--json` prints every reading as well.
 */
import { parseArgs } from "node:util";
import { compileForSpeed } from "./compile-for-speed.ts";
import { soakRealTime } from "./real-hour.ts";
import { judge, type Row, table } from "./report.ts";
import type { Reading } from "./sampler.ts";
import { soakSimulated } from "./simulated-day.ts";

const { values } = parseArgs({
  options: {
    minutes: { type: "string", default: "60" },
    benches: { type: "string", default: "200" },
    hours: { type: "string", default: "24" },
    json: { type: "boolean", default: false },
  },
});

const of = (readings: readonly Reading[], value: keyof Reading) =>
  readings.map((one) => ({ at: one.at, value: one[value] }));

const held = (readings: readonly Reading[]): readonly Row[] => [
  { what: "values after collection", unit: "MB", points: of(readings, "heap"), trifle: 0.5 },
  { what: "compiled code", unit: "MB", points: of(readings, "code") },
  { what: "resident memory", unit: "MB", points: of(readings, "resident"), trifle: 4 },
  { what: "handles but timers", unit: "", points: of(readings, "handles"), trifle: 1 },
  { what: "timers", unit: "", points: of(readings, "timers"), trifle: 1 },
  { what: "open files", unit: "", points: of(readings, "files"), trifle: 1 },
  { what: "longest stretch of work", unit: "ms", points: of(readings, "busy") },
  { what: "load of the machine", unit: "", points: of(readings, "load") },
];

const print = (text: string): void => void process.stdout.write(`${text}\n`);

if (Number(values.hours) > 0) {
  compileForSpeed(false);
  const day = await soakSimulated(Number(values.hours));
  compileForSpeed(true);
  const rows = [
    ...held(day.readings),
    {
      what: "told late, by the moved clock",
      unit: "ms",
      points: day.late,
      trifle: 1,
    },
  ].map(judge);
  print(
    `${values.hours} moved hours, ${day.benches} benches, ${day.evenings} runs (at most ${day.mostAtOnce} at once), ${day.said} sentences, ${day.cues} cues and reminders`,
  );
  print(table(rows));
  if (values.json) print(JSON.stringify(rows));
  print(`told late at worst ${day.latest} ms, early ${day.early}; faults: ${day.faults.length}`);
  for (const fault of new Set(day.faults)) print(`  ${fault}`);
  const good = rows.every(({ flat }) => flat) && day.early === 0 && day.faults.length === 0;
  if (!good) process.exitCode = 1;
}

if (Number(values.minutes) > 0) {
  const real = await soakRealTime(Number(values.minutes), Number(values.benches));
  const rows = [
    ...held(real.readings),
    {
      what: "cues late, p50",
      unit: "ms",
      points: real.late.map(({ at, p50 }) => ({ at, value: p50 })),
      trifle: 1,
    },
    {
      what: "cues late, p99",
      unit: "ms",
      points: real.late.map(({ at, p99 }) => ({ at, value: p99 })),
      trifle: 5,
    },
  ].map(judge);
  const cues = real.late.reduce((sum, one) => sum + one.cues, 0);
  print(
    `${values.minutes} real minutes, ${real.benches} benches, ${real.said} sentences said, ${real.unforgotten} evenings not forgotten, ${real.unanswered} sentences unanswered`,
  );
  print(table(rows));
  if (values.json) print(JSON.stringify(rows));
  print(`${cues} cues: ${real.lost} lost, ${real.wrong} early or twice`);
  print(`rules of the service broken: ${real.violations.length}`);
  for (const violation of new Set(real.violations)) print(`  ${violation}`);
  if (real.complaint !== "") print(real.complaint.trim());
  const good = rows.every(({ flat }) => flat) && real.lost + real.wrong === 0;
  if (!good || real.violations.length > 0) process.exitCode = 1;
}
