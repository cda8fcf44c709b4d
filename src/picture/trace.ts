import type { SessionStage, SharedSession } from "../domain/record/session-schema.ts";
import { plain } from "../domain/units/show.ts";
import { bandEdge, bandFill, ink, type Look, soft } from "./look.ts";
import { marker } from "./marker.ts";
import type { Piece } from "./sheet-of-paper.ts";
import { type Box, element, overlap, textWidth } from "./svg.ts";
import { line } from "./text-line.ts";
import type { TimeScale } from "./time-rows.ts";

/** Further out than so many half bands a reading stands at the edge. */
const MOST_BANDS = 4;
/** Without a band a degree is drawn as high as this many half bands: it shows a way, no verdict. */
const NO_BAND = 1;

/**
 * The temperatures along the line of time. Every bath's band is drawn to the same height, so that
 * the eye sees what is inside and what is not, whether the band is ±0.15 °C or ±3 °C; the degrees
 * stand beside each reading.
 */
export function trace(session: SharedSession, look: Look, scale: TimeScale, top: number): Piece {
  const read = session.stages.filter(({ readings }) => readings.length > 0);
  if (read.length === 0) {
    const text = "No temperature was read.";
    return {
      drawn: line(text, { x: look.margin, y: top + look.small, size: look.small, fill: soft }),
      bottom: top + look.small * 1.6,
    };
  }
  const height = look.plot * (look.brief ? 1 : 0.9);
  const middle = top + height / 2;
  const half = height / 2 / (MOST_BANDS + 0.6);
  const taken: Box[] = [];
  const parts = session.stages.map((stage) => bandOf(stage, scale, middle, half, look));
  const heads = session.stages.map((stage) => bandName(stage, scale, middle, half, look, taken));
  const marks = read.map((stage) => readingsOf(stage, scale, middle, half, look, taken, height));
  return {
    drawn: [...parts, ...heads, ...marks].join(""),
    bottom: top + height + look.small * 0.4,
  };
}

const spanOf = ({ real_from_s, real_to_s, plan_from_s, plan_to_s }: SessionStage) =>
  real_from_s === null
    ? ([plan_from_s, plan_to_s] as const)
    : ([real_from_s, real_to_s ?? plan_to_s] as const);

function bandOf(
  stage: SessionStage,
  scale: TimeScale,
  middle: number,
  half: number,
  look: Look,
): string {
  if (stage.aim_c === null || stage.skipped) return "";
  const [from, to] = spanOf(stage);
  const [x1, x2] = [scale.x(from), Math.max(scale.x(from) + 4, scale.x(to))];
  const edge = { stroke: bandEdge, "stroke-width": 2 };
  const aim = element("line", {
    x1,
    x2,
    y1: middle,
    y2: middle,
    ...edge,
    "stroke-dasharray": "8 6",
  });
  if (stage.tolerance_c === null) return aim;
  return [
    element("rect", { x: x1, y: middle - half, width: x2 - x1, height: half * 2, fill: bandFill }),
    ...[-half, half].map((off) =>
      element("line", {
        x1,
        x2,
        y1: middle + off,
        y2: middle + off,
        ...edge,
        "stroke-width": look.brief ? 3 : 2,
      }),
    ),
    aim,
  ].join("");
}

/** The aim and its band, inside the band where it fits, for baths that were read. */
function bandName(
  stage: SessionStage,
  scale: TimeScale,
  middle: number,
  half: number,
  look: Look,
  taken: Box[],
): string {
  if (stage.aim_c === null || stage.readings.length === 0) return "";
  const size = look.small * 0.9;
  const band = stage.tolerance_c === null ? "" : ` ±${plain(stage.tolerance_c, 2)}`;
  const text = `${stage.bath} ${plain(stage.aim_c, 1)}${band}`;
  const w = textWidth(text, size);
  const x = Math.min(scale.x(spanOf(stage)[0]), scale.right - w);
  // Above everything a reading may take, one below the other where baths are short.
  for (let level = 0; level < 6; level += 1) {
    const y = middle - half * (MOST_BANDS + 0.4) + size * (0.4 + level * 1.15);
    const box = { x, y: y - size, w: w + size * 0.5, h: size * 1.2 };
    if (taken.some((one) => overlap(one, box))) continue;
    taken.push(box);
    return line(text, { x, y, size, fill: soft });
  }
  return "";
}

function readingsOf(
  stage: SessionStage,
  scale: TimeScale,
  middle: number,
  half: number,
  look: Look,
  taken: Box[],
  height: number,
): string {
  const aim = stage.aim_c ?? stage.readings[0]?.temp_c ?? 0;
  const unit = stage.tolerance_c === null ? NO_BAND : Math.max(0.01, stage.tolerance_c);
  const from = stage.real_from_s ?? stage.plan_from_s;
  const points = stage.readings.map((reading) => {
    const bands = (reading.temp_c - aim) / unit;
    const off = Math.max(-MOST_BANDS + 0.6, Math.min(MOST_BANDS - 0.9, bands));
    return { reading, x: scale.x(Math.max(0, from + reading.into_s)), y: middle - off * half };
  });
  const path = points
    .map(({ x, y }, index) => `${index === 0 ? "M" : "L"}${Math.round(x)} ${Math.round(y)}`)
    .join("");
  const size = look.small * 0.95;
  for (const { x, y } of points) {
    const r = look.mark * 1.2;
    taken.push({ x: x - r, y: y - r, w: r * 2, h: r * 2 });
  }
  const labels = points.map(({ reading, x, y }) => {
    const text = `${plain(reading.temp_c, 1)}${reading.unverified === null ? "" : "?"}`;
    const w = textWidth(text, size);
    const place = placeFor(x, y, w, size, look, scale, taken, middle, height);
    if (place === undefined) return "";
    taken.push(place);
    return line(text, { x: place.x, y: place.y + size * 0.9, size, weight: 600 });
  });
  return [
    points.length > 1
      ? element("path", { d: path, fill: "none", stroke: ink, "stroke-width": look.mark * 0.4 })
      : "",
    ...points.map(({ reading, x, y }) => marker(reading.verdict, x, y, look.mark)),
    ...labels,
  ].join("");
}

/** The first free place beside, below or above a mark that lies on the picture. */
function placeFor(
  x: number,
  y: number,
  w: number,
  h: number,
  look: Look,
  scale: TimeScale,
  taken: readonly Box[],
  middle: number,
  height: number,
): Box | undefined {
  const r = look.mark * 1.7;
  const tries = [
    { x: x + r, y: y - h / 2 },
    { x: x - r - w, y: y - h / 2 },
    { x: x - w / 2, y: y + r },
    { x: x - w / 2, y: y - r - h },
    { x: x + r, y: y + r * 0.6 },
    { x: x + r, y: y - r - h * 0.6 },
    { x: x - w / 2, y: y + r + h },
    { x: x - w / 2, y: y - r - h * 2 },
  ].map((one) => ({ ...one, w, h }));
  return tries.find(
    (box) =>
      box.x >= scale.left - 2 &&
      box.x + w <= scale.right &&
      box.y >= middle - height / 2 &&
      box.y + h <= middle + height / 2 + h * 0.3 &&
      !taken.some((one) => overlap(one, box)),
  );
}

/** What the marks of the trace mean; only those that are there. */
export function traceLegend(session: SharedSession): string {
  const readings = session.stages.flatMap((stage) => stage.readings);
  const has = (verdict: string): boolean => readings.some((one) => one.verdict === verdict);
  return [
    "grey band: allowed, each bath's drawn alike",
    ...(has("inside") ? ["dot: inside"] : []),
    ...(has("above") ? ["solid triangle up: too warm"] : []),
    ...(has("below") ? ["hollow triangle down: too cold"] : []),
    ...(has("no band") ? ["diamond: no band given"] : []),
    ...(readings.some(({ unverified }) => unverified !== null)
      ? ["?: thermometer not verified"]
      : []),
  ].join("; ");
}
