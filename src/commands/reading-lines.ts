import { isColour, isDeveloper } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { ReadingTaken, Run, Stage } from "../domain/session/run.ts";
import { BANDS } from "../domain/temperature/bands.ts";
import { plain, showTemperature } from "../domain/units/show.ts";

/** Where a reading lies against the sheet's band, in words. */
export function judge(off: number, tolerance: number): string {
  const size = Math.abs(off);
  if (size <= tolerance + 1e-9) return "in the band";
  return `${plain(size, 1)} ${size === 1 ? "degree" : "degrees"} too ${off > 0 ? "warm" : "cold"}`;
}

/** What stands under a reading: its correction, how far to trust it, the aim and what to do. */
export function readingLines(
  bench: Bench,
  run: Run,
  stage: Stage,
  reading: ReadingTaken & { readonly taken: boolean },
): readonly string[] {
  const { temperature, read, thermometer, unverified, taken, at } = reading;
  const lines: string[] = [];
  const known = Object.keys(bench.thermometers).length > 0;
  if (read !== undefined && Math.abs(read - temperature) > 1e-9) {
    lines.push(
      `Read ${plain(read, 1)} on the ${thermometer ?? ""} thermometer, corrected to ${plain(temperature, 2)} °C.`,
    );
  } else if (taken && known) lines.push(`Taken as read on the ${thermometer ?? ""} thermometer.`);
  if (unverified !== undefined && (known || thermometer !== undefined)) lines.push(unverified);
  if (stage.temperature === undefined || stage.temperatureOrigin === undefined) return lines;
  if (stage.tolerance === undefined) return lines;
  lines.push(`Aim ${showTemperature(stage.temperature)}, ±${plain(stage.tolerance, 2)} °C.`);
  const off = temperature - stage.temperature;
  if (Math.abs(off) > stage.tolerance + 1e-9) {
    const wet = stage.inAt !== undefined && at >= stage.inAt;
    lines.push(...advice(off, run, stage, wet));
  }
  return lines;
}

function advice(off: number, run: Run, { kind, sense }: Stage, wet: boolean): readonly string[] {
  if (!isDeveloper(kind)) return ["This bath is forgiving; bring it nearer when you can."];
  if (!wet) {
    return Math.abs(off) > BANDS.ask
      ? ["Do not pour yet: bring the developer itself to its temperature, then measure again."]
      : ["Bring the developer itself nearer before you pour, then measure again."];
  }
  if (sense === "exact" && run.rehearsal === undefined) return [];
  return isColour(run.process)
    ? ["I do not change the time: in colour, time restores density, not the balance of the layers."]
    : [];
}
