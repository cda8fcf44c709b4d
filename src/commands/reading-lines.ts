import { isColour, isDeveloper } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { ReadingTaken, Run, Stage } from "../domain/session/run.ts";
import { BANDS } from "../domain/temperature/bands.ts";
import type { Celsius } from "../domain/units/quantity.ts";
import { plain, showTemperature } from "../domain/units/show.ts";

/** Where a reading lies against the sheet's band, in words. */
export function judge(off: number, tolerance: number): string {
  const size = Math.abs(off);
  if (size <= tolerance + 1e-9) return "in the band";
  const shown = plain(size, 1);
  return `${shown} ${shown === "1" ? "degree" : "degrees"} too ${off > 0 ? "warm" : "cold"}`;
}

/** The same where the sheet has an aim and no band: how far off it is, and no verdict. */
export function besideAim(off: number): string {
  const shown = plain(Math.abs(off), 1);
  if (shown === "0") return "at the aim";
  return `${shown} ${shown === "1" ? "degree" : "degrees"} ${off > 0 ? "over" : "under"} the aim`;
}

/** Beyond so many half widths of its band no bath is forgiving any more: our own bound, no source. */
const WELL_OUTSIDE = 2;

const isWellOutside = (off: number, { kind, tolerance }: Stage): boolean =>
  !isDeveloper(kind) && tolerance !== undefined && Math.abs(off) > WELL_OUTSIDE * tolerance + 1e-9;

/** A reading for the ear. */
export function sayReading(stage: Stage, temperature: Celsius, verdict: string): string {
  const off = temperature - (stage.temperature ?? temperature);
  const what = isWellOutside(off, stage)
    ? `well outside its band. ${off < 0 ? "Warm it" : "Let it cool"}`
    : verdict;
  return `${plain(temperature, 1)}, ${what}.`;
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
      `Read ${plain(read, 1)} on the ${thermometer ?? ""} thermometer${taken ? ", the only one I know" : ""}, corrected to ${plain(temperature, 2)} °C.`,
    );
  } else if (taken && known) {
    lines.push(`Taken as read on the ${thermometer ?? ""} thermometer, the only one I know.`);
  }
  if (unverified !== undefined && (known || thermometer !== undefined)) lines.push(unverified);
  if (stage.temperature === undefined || stage.temperatureOrigin === undefined) return lines;
  const { tolerance } = stage;
  const band =
    tolerance === undefined ? "; the sheet gives no band" : `, ±${plain(tolerance, 2)} °C`;
  lines.push(`Aim ${showTemperature(stage.temperature)}${band}.`);
  const off = temperature - stage.temperature;
  const bound = tolerance ?? (isDeveloper(stage.kind) ? BANDS.note : BANDS.ask);
  if (Math.abs(off) > bound + 1e-9) {
    const wet = stage.inAt !== undefined && at >= stage.inAt;
    lines.push(...advice(off, run, stage, wet));
  }
  return lines;
}

function advice(off: number, run: Run, stage: Stage, wet: boolean): readonly string[] {
  const { kind, sense } = stage;
  if (!isDeveloper(kind)) {
    return isWellOutside(off, stage)
      ? farAdvice(off, stage, wet)
      : ["This bath is forgiving; bring it nearer when you can."];
  }
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

/**
 * A bath well outside its band. A cold bleach leaves silver behind, which bleaching and fixing once
 * more can cure (TG2044, p. 30, read; it speaks of a reversal bleach).
 */
function farAdvice(off: number, { bath, kind }: Stage, wet: boolean): readonly string[] {
  if (off > 0) {
    return [
      `Well outside its band: let it cool${wet ? "" : " before you pour"}. Your sheet says how warm ${bath} may be.`,
    ];
  }
  const warm = `Well outside its band: warm it${wet ? " now, tank and bottle in warm water" : " before you pour"}.`;
  return kind === "blix" || kind === "bleach"
    ? [
        warm,
        `A cold ${kind} may leave silver in the film; bleaching and fixing again can cure that (TG2044, p. 30, read). Your sheet decides.`,
      ]
    : [warm, `A cold ${bath} works slower; your sheet says by how much.`];
}
