import type { ChartStage } from "../domain/session/chart.ts";
import { secondsBetween } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { barsOf, gridLine, ticksOf } from "./bars.ts";
import { type Look, soft } from "./look.ts";
import { scaleOf, timeSteps } from "./panel-scale.ts";
import { bandOf, bendsOf, readingsOf } from "./plot.ts";
import { type Box, fitText, textWidth, wrapText } from "./svg.ts";
import { aimText, withoutName } from "./temperature-text.ts";
import { line } from "./text-line.ts";

/** What the picture says in words under a stage: all that its shapes do not show. */
const notesOf = (stage: ChartStage, look: Look, width: number): readonly string[] =>
  stage.skipped
    ? []
    : stage.deviations
        .map((one) => withoutName(one, stage.bath))
        .filter((one) => !one.startsWith("read "))
        .flatMap((one) => wrapText(one, look.small, width));

export const hasPlot = (stage: ChartStage): boolean => stage.readings.length > 0;

/** Nothing read, nothing amiss and nothing under way: its times alone are worth a line. */
const isBrief = (stage: ChartStage, look: Look): boolean =>
  look.brief &&
  (stage.skipped || (stage.readings.length === 0 && stage.deviations.length === 0 && !stage.open));

const headHeight = (look: Look): number =>
  look.brief ? look.name * 1.45 : look.name * 1.3 + look.text * 1.5;

/** Height of a stage's panel, px. */
export function panelHeight(stage: ChartStage, look: Look, width: number, plot: boolean): number {
  if (stage.skipped || isBrief(stage, look)) return look.brief ? look.name : headHeight(look);
  const ticks = plot ? look.small * 1.35 : 0;
  const notes = notesOf(stage, look, width).length * look.small * 1.3;
  return headHeight(look) + (plot ? look.plot : 0) + look.bar * 3.4 + ticks + notes;
}

/** One stage: its name and aim, the band with its readings, the time planned and taken. */
export function panel(stage: ChartStage, place: Box, look: Look, plot: boolean): string {
  const { x, w } = place;
  const parts: string[] = [heading(stage, { ...place, y: place.y + look.name * 0.8 }, look)];
  if (stage.skipped || isBrief(stage, look)) return parts.join("");

  const left = look.small * 3.4;
  const right = look.small * 2.9;
  const y = place.y + headHeight(look);
  const box: Box = { x: x + left, y, w: w - left - right, h: plot ? look.plot : 0 };
  const scale = scaleOf(stage, box, look);
  const barsAt = box.y + box.h;
  const foot = barsAt + look.bar * 3.2;
  let note = foot + look.small;
  if (plot) {
    const steps = timeSteps(scale.total);
    parts.push(
      ...steps.map((at) => gridLine(scale.x(at), box.y, foot)),
      bandOf(stage, box, scale, look),
      bendsOf(stage, box, scale, look),
      readingsOf(stage, box, scale, look),
      ticksOf(steps, scale, foot + look.small, look),
    );
    note += look.small * 1.35;
  }
  parts.push(barsOf(stage, { ...box, y: barsAt }, x, scale, look));
  for (const text of notesOf(stage, look, w)) {
    parts.push(line(text, { x, y: note, size: look.small, weight: 600 }));
    note += look.small * 1.3;
  }
  return parts.join("");
}

/** The name, and what was wanted: under it, or at the end of its line where lines are long. */
function heading(stage: ChartStage, { x, y, w }: Box, look: Look): string {
  const sense = stage.sense === "exact" ? "exactly" : "at least";
  const aim = stage.aim === undefined ? "" : `, ${aimText(stage)}`;
  const { real } = stage;
  const times =
    real === undefined
      ? `${sense} ${showDuration(stage.time)}, not poured`
      : `${sense} ${showDuration(stage.time)}, took ${showDuration(secondsBetween(real.from, real.to))}`;
  const wanted = stage.skipped
    ? "skipped"
    : isBrief(stage, look)
      ? times
      : `${sense} ${showDuration(stage.time)}${aim}`;
  const name = { x, y, size: look.name, weight: 700, strike: stage.skipped };
  if (!look.brief) {
    return [
      line(fitText(stage.bath, look.name, w), name),
      line(fitText(wanted, look.text, w), {
        x,
        y: y + look.text * 1.4,
        size: look.text,
        fill: soft,
      }),
    ].join("");
  }
  const room = w - textWidth(wanted, look.text) - look.text;
  return [
    line(fitText(stage.bath, look.name, room), name),
    line(wanted, { x: x + w, y, size: look.text, fill: soft, anchor: "end" }),
  ].join("");
}
