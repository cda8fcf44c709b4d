import type { SessionStage, SharedSession } from "../domain/record/session-schema.ts";
import { seconds } from "../domain/units/quantity.ts";
import { plain, showDuration } from "../domain/units/show.ts";
import { gridLine } from "./bars.ts";
import { ink, type Look, paper, soft } from "./look.ts";
import { timeSteps } from "./panel-scale.ts";
import type { Piece } from "./sheet-of-paper.ts";
import { element, fitText, textWidth } from "./svg.ts";
import { line } from "./text-line.ts";

/** Seconds from the first pour as px. */
export type TimeScale = {
  readonly x: (s: number) => number;
  readonly left: number;
  readonly right: number;
  readonly total: number;
};

/** Where names stand beside the bars, and where above them. */
export function timeScale(session: SharedSession, look: Look): TimeScale {
  const left = look.margin + (look.brief ? 0 : look.width * 0.27);
  const right = look.width - look.margin;
  const ends = session.stages.flatMap(({ plan_to_s, real_to_s, readings, real_from_s }) => [
    plan_to_s,
    real_to_s ?? 0,
    ...readings.map(({ into_s }) => (real_from_s ?? 0) + into_s),
  ]);
  const total = Math.max(1, ...ends);
  const x = (s: number): number =>
    Math.max(left, Math.min(right, left + ((right - left) * s) / total));
  return { x, left, right, total };
}

const length = (s: number): string => showDuration(seconds(s));

/** "exactly 3:25, took 3:15": what a row's bars show, in words. */
function rowWords(stage: SessionStage): string {
  const exactly = stage.sense === "exact" ? "exactly" : "at least";
  const plan = `${exactly} ${length(stage.planned_s)}`;
  if (stage.skipped) return `${plan}, skipped`;
  if (stage.real_s === null)
    return stage.real_from_s === null ? `${plan}, not poured` : `${plan}, in now`;
  const give = stage.plus_minus_s === 0 ? "" : ` ±${plain(stage.plus_minus_s, 0)} s`;
  return `${plan}, took ${length(stage.real_s)}${give}`;
}

/** Every bath as planned, hollow, and as it was, solid, one row each along one line of time. */
export function timeRows(session: SharedSession, look: Look, scale: TimeScale, top: number): Piece {
  const step = rowHeight(look);
  const steps = timeSteps(scale.total);
  const foot = top + step * session.stages.length;
  const parts = [
    ...session.stages.flatMap((_, index) => {
      // Behind the bars alone: a line through words is in their way.
      const y = top + step * index + (look.brief ? look.text * 1.35 : 0);
      return steps.map((s) => gridLine(scale.x(s), y, top + step * (index + 1)));
    }),
    ...session.stages.map((stage, index) => row(stage, look, scale, top + step * index)),
    ticks(steps, scale, foot + look.small, look),
  ];
  return { drawn: parts.join(""), bottom: foot + look.small * 1.5 };
}

/** A name above its bars on a phone; beside them, in two lines, where there is room. */
const rowHeight = (look: Look): number =>
  look.brief ? look.text * 1.3 + look.bar * 3.5 : Math.max(look.small * 2.7, look.bar * 4);

function row(stage: SessionStage, look: Look, scale: TimeScale, y: number): string {
  const words = rowWords(stage);
  const x = look.margin;
  if (look.brief) {
    const bars = y + look.text * 1.3;
    const room = scale.right - x - textWidth(words, look.small) - look.small;
    return [
      line(fitText(stage.bath, look.text, room), {
        x,
        y: y + look.text,
        size: look.text,
        weight: 700,
        strike: stage.skipped,
      }),
      line(words, {
        x: scale.right,
        y: y + look.text,
        size: look.small,
        fill: soft,
        anchor: "end",
      }),
      barsOf(stage, look, scale, bars),
    ].join("");
  }
  const room = scale.left - x - look.small;
  return [
    line(fitText(stage.bath, look.text, room), {
      x,
      y: y + look.text,
      size: look.text,
      weight: 700,
      strike: stage.skipped,
    }),
    line(fitText(words, look.small * 0.95, room), {
      x,
      y: y + look.text + look.small * 1.1,
      size: look.small * 0.95,
      fill: soft,
    }),
    barsOf(stage, look, scale, y + look.bar * 0.4),
  ].join("");
}

function barsOf(stage: SessionStage, look: Look, scale: TimeScale, y: number): string {
  const bar = (
    from: number,
    to: number,
    top: number,
    attributes: Record<string, string | number>,
  ) =>
    element("rect", {
      x: scale.x(from),
      y: top,
      width: Math.max(3, scale.x(to) - scale.x(from)),
      height: look.bar,
      ...attributes,
    });
  const parts = [
    bar(stage.plan_from_s, stage.plan_to_s, y, {
      fill: paper,
      stroke: ink,
      "stroke-width": 2.5,
      ...(stage.skipped ? { "stroke-dasharray": "7 6" } : {}),
    }),
  ];
  const { real_from_s: from, real_to_s: to } = stage;
  if (from !== null) {
    const under = y + look.bar * 1.35;
    // Still in: the bar is open at its end.
    const until = to ?? from + Math.max(1, scale.total * 0.01);
    parts.push(
      bar(from, until, under, { fill: ink }),
      ...beatMarks(stage, from, look, scale, under),
    );
    if (stage.plus_minus_s > 0) parts.push(whisker(from, stage.plus_minus_s, look, scale, under));
  }
  return parts.join("");
}

/** Below the bar: a full stroke for a beat that was told, an open ring where a hold hid it, a cross for a late one. */
function beatMarks(
  { beats }: SessionStage,
  from: number,
  look: Look,
  scale: TimeScale,
  y: number,
): readonly string[] {
  if (beats === null) return [];
  const top = y + look.bar * 1.15;
  const r = look.bar * 0.34;
  const stroke = { stroke: ink, "stroke-width": look.bar * 0.22 };
  return [
    ...beats.given_s.map((s) => {
      const x = scale.x(from + s);
      return element("line", { x1: x, x2: x, y1: top, y2: top + look.bar * 0.85, ...stroke });
    }),
    ...beats.silent_s.map((s) =>
      element("circle", {
        cx: scale.x(from + s),
        cy: top + look.bar * 0.45,
        r,
        fill: paper,
        ...stroke,
      }),
    ),
    ...beats.late_s.map((s) => {
      const [x, mid] = [scale.x(from + s), top + look.bar * 0.45];
      return element("path", {
        d: `M${num(x - r)} ${num(mid - r)}L${num(x + r)} ${num(mid + r)}M${num(x - r)} ${num(mid + r)}L${num(x + r)} ${num(mid - r)}`,
        fill: "none",
        ...stroke,
      });
    }),
  ];
}

const num = (value: number): string => String(Math.round(value * 10) / 10);

/** Where the start is only assumed. */
function whisker(from: number, give: number, look: Look, scale: TimeScale, y: number): string {
  const mid = y + look.bar / 2;
  const ends = [scale.x(from - give), scale.x(from + give)] as const;
  const stroke = { stroke: ink, "stroke-width": 2.5 };
  return [
    element("line", { x1: ends[0], x2: ends[1], y1: mid, y2: mid, ...stroke }),
    element("line", { x1: ends[0], x2: ends[0], y1: y, y2: y + look.bar, ...stroke }),
  ].join("");
}

function ticks(steps: readonly number[], scale: TimeScale, y: number, look: Look): string {
  let free = Number.NEGATIVE_INFINITY;
  return steps
    .map((s) => {
      const text = s === 0 ? "0" : length(s);
      const half = textWidth(text, look.small * 0.9) / 2;
      const x = Math.min(scale.right - half, Math.max(scale.left + half, scale.x(s)));
      if (x - half < free) return "";
      free = x + half + look.small * 0.4;
      return line(text, { x, y, size: look.small * 0.9, fill: soft, anchor: "middle" });
    })
    .join("");
}

/** What the shapes in the rows mean; only those that are there. */
export function rowLegend(session: SharedSession): readonly string[] {
  const beats = session.stages.flatMap((stage) => stage.beats ?? []);
  const marks = [
    ...(beats.some(({ given_s }) => given_s.length > 0) ? ["stroke below: beat told"] : []),
    ...(beats.some(({ silent_s }) => silent_s.length > 0) ? ["ring: silent by hold"] : []),
    ...(beats.some(({ late_s }) => late_s.length > 0) ? ["cross: told late"] : []),
  ];
  return [["hollow: planned, solid: real", ...marks].join("; ")];
}
