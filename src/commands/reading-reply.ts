import type { Bench } from "../domain/session/bench.ts";
import { weighAnew } from "../domain/session/drift-run.ts";
import type { ReadingTaken, Run, Stage } from "../domain/session/run.ts";
import { jumps, sayJump } from "../domain/temperature/jump.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { plain, showTemperature } from "../domain/units/show.ts";
import type { Shown } from "../reply/reply.ts";
import { coldReply } from "./cold-reply.ts";
import type { Outcome } from "./define-command.ts";
import { type DriftParts, driftReply } from "./drift-reply.ts";
import { besideAim, judge, readingLines, sayReading } from "./reading-lines.ts";

/** A reading logged, with what it leads to: nothing, a moved pour-out, or a question. */
export function readingReply(
  bench: Bench,
  run: Run,
  { taken, ...reading }: ReadingTaken & { readonly taken: boolean },
  now: Instant,
): Outcome {
  const stage = run.stages[reading.stage];
  if (stage === undefined) throw new Error("a reading of no stage");
  const logged: Run = { ...run, readings: [...run.readings, reading] };
  const parts = readingParts(bench, run, stage, { ...reading, taken });
  const weighed = weighAnew(logged, reading.stage, now);
  return weighed === undefined
    ? coldReply(bench, logged, reading.stage, parts, now)
    : driftReply(bench, logged, reading.stage, weighed, parts, now);
}

function readingParts(
  bench: Bench,
  run: Run,
  stage: Stage,
  reading: ReadingTaken & { readonly taken: boolean },
): DriftParts {
  const { temperature, read, thermometer, unverified } = reading;
  const figures: Record<string, Shown> = {
    temp_c: {
      value: temperature,
      origin:
        read === undefined || read === temperature
          ? { kind: "told" }
          : { kind: "computed", source: `read ${plain(read, 2)} less the thermometer's offset` },
    },
  };
  if (read !== undefined && read !== temperature) {
    figures.read_c = { value: read, origin: { kind: "told" } };
  }
  let verdict = "logged";
  let within: boolean | undefined;
  if (stage.temperature !== undefined && stage.temperatureOrigin !== undefined) {
    const off = temperature - stage.temperature;
    figures.aim_c = { value: stage.temperature, origin: stage.temperatureOrigin };
    figures.off_c = { value: off, origin: { kind: "computed", source: "reading less aim" } };
    if (stage.tolerance !== undefined) {
      figures.tolerance_c = { value: stage.tolerance, origin: stage.temperatureOrigin };
      verdict = judge(off, stage.tolerance);
      within = verdict === "in the band";
    } else verdict = besideAim(off);
  }
  return {
    title: `${run.tank}: ${stage.bath} at ${showTemperature(temperature)}, ${verdict}.`,
    lines: readingLines(bench, run, stage, reading),
    // One bath of several: the ear hears which.
    say: `${run.stages.length > 1 ? `${stage.bath} ` : ""}${sayReading(stage, temperature, verdict)}`,
    figures,
    cautions: jumpCautions(bench, run, reading),
    facts: {
      tank: run.tank,
      bath: stage.bath,
      ...(thermometer === undefined ? {} : { thermometer }),
      ...(Object.keys(bench.thermometers).length === 0
        ? {}
        : { verified: unverified === undefined }),
      ...(within === undefined ? {} : { within }),
    },
  };
}

/** Film goes from what the bath before really had, where it was read, to this reading. */
function jumpCautions(bench: Bench, run: Run, reading: ReadingTaken): readonly string[] {
  const before = run.stages.findLastIndex(
    (stage, index) => index < reading.stage && stage.skipped !== true,
  );
  const stage = run.stages[before];
  const real = run.readings.findLast((one) => one.stage === before)?.temperature;
  const temperature = real ?? stage?.temperature;
  if (stage === undefined || temperature === undefined) return [];
  const here = { bath: reading.bath, temperature: reading.temperature };
  return jumps([{ bath: stage.bath, temperature }, here], bench.jumpLimit).map(sayJump);
}
