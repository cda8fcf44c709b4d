import type { SessionStage, SharedSession } from "../domain/record/session-schema.ts";
import { plain } from "../domain/units/show.ts";
import { bandEdge, bandFill, ink, type Look, paper, soft } from "./look.ts";
import { marker } from "./marker.ts";
import type { Piece } from "./sheet-of-paper.ts";
import { type Box, element, fitText, overlap, textWidth } from "./svg.ts";
import { line } from "./text-line.ts";
import type { TimeScale } from "./time-rows.ts";

/** Further out than so many half bands a reading stands at the edge. */
const MOST_BANDS = 4;
/** The lane is never drawn closer than this. */
const LEAST_BANDS = 1.4;
/** Without a band a degree is drawn as high as this many half bands: it shows a way, no verdict. */
const NO_BAND = 1;

/**
 * The temperatures along the line of time. Every bath's band is drawn to the same height, so that
 * the eye sees what is inside and what is not, whether the band is ±0.15 °C or ±3 °C; the degrees
 * stand beside each reading.
 */
export function trace(
  session: SharedSession,
  look: Look,
  scale: TimeScale,
  top: number,
): Piece & { readonly unwritten: readonly string[] } {
  const read = session.stages.filter(({ readings }) => readings.length > 0);
  if (read.length === 0) {
    const text = "No temperature was read.";
    return {
      drawn: line(text, { x: look.margin, y: top + look.small, size: look.small, fill: soft }),
      bottom: top + look.small * 1.6,
      unwritten: [],
    };
  }
  const taken: Box[] = [];
  const heads = read.map((stage) => bandName(stage, scale, top, look, taken));
  const lane = Math.max(top, ...taken.map(({ y, h }) => y + h)) + look.small * 0.2;
  const height = look.plot * (look.brief ? 0.95 : 0.85);
  const out = Math.max(
    LEAST_BANDS,
    ...read.flatMap((stage) =>
      stage.readings.map((one) => Math.min(MOST_BANDS, Math.abs(bandsOff(stage, one.temp_c)))),
    ),
  );
  // Room for a mark and its figure beyond the furthest.
  const half = (height / 2 - look.mark * 1.4 - look.small * 0.5) / out;
  const plot: Lane = { top: lane, middle: lane + height / 2, height, half, out };
  const parts = session.stages.map((stage) => bandOf(stage, scale, plot, look));
  const marks = read.map((stage) => readingsOf(stage, scale, plot, look, taken));
  return {
    drawn: [...parts, ...heads, ...marks.map(({ drawn }) => drawn)].join(""),
    bottom: lane + height + look.small * 0.2,
    unwritten: marks.flatMap(({ unwritten }, index) =>
      unwritten.length === 0 ? [] : [`${read[index]?.bath ?? ""} ${unwritten.join(", ")}`],
    ),
  };
}

/** Where the readings are drawn: `half` px for half a band, `out` half bands from the middle at most. */
type Lane = {
  readonly top: number;
  readonly middle: number;
  readonly height: number;
  readonly half: number;
  readonly out: number;
};

/** How many half bands a reading lies off its aim. */
function bandsOff({ aim_c, tolerance_c, readings }: SessionStage, temperature: number): number {
  const aim = aim_c ?? readings[0]?.temp_c ?? 0;
  return (temperature - aim) / (tolerance_c === null ? NO_BAND : Math.max(0.01, tolerance_c));
}

const spanOf = ({ real_from_s, real_to_s, plan_from_s, plan_to_s }: SessionStage) =>
  real_from_s === null
    ? ([plan_from_s, plan_to_s] as const)
    : ([real_from_s, real_to_s ?? plan_to_s] as const);

function bandOf(stage: SessionStage, scale: TimeScale, { middle, half }: Lane, look: Look): string {
  if (stage.aim_c === null || stage.skipped) return "";
  const [from, to] = spanOf(stage);
  // A gap of paper between two baths that follow each other at once.
  const [x1, x2] = [scale.x(from), Math.max(scale.x(from) + 4, scale.x(to) - look.mark * 0.5)];
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

/** The aim and its band above the lane, for a bath that was read; one below the other where baths are short. */
function bandName(
  stage: SessionStage,
  scale: TimeScale,
  top: number,
  look: Look,
  taken: Box[],
): string {
  const size = look.small * 0.9;
  const band = stage.tolerance_c === null ? "" : ` ±${plain(stage.tolerance_c, 2)}`;
  const aim = stage.aim_c === null ? "" : ` ${plain(stage.aim_c, 1)}${band}`;
  const text = fitText(`${stage.bath}${aim}`, size, (scale.right - scale.left) * 0.8);
  const w = textWidth(text, size);
  const x = Math.min(scale.x(spanOf(stage)[0]), scale.right - w);
  for (let level = 0; ; level += 1) {
    const y = top + size * (1 + level * 1.2);
    const box = { x, y: y - size, w: w + size * 0.6, h: size * 1.2 };
    if (taken.some((one) => overlap(one, box))) continue;
    taken.push(box);
    return line(text, { x, y, size, fill: soft });
  }
}

function readingsOf(
  stage: SessionStage,
  scale: TimeScale,
  lane: Lane,
  look: Look,
  taken: Box[],
): { readonly drawn: string; readonly unwritten: readonly string[] } {
  const unwritten: string[] = [];
  const from = stage.real_from_s ?? stage.plan_from_s;
  const points = stage.readings.map((reading) => {
    const off = Math.max(-lane.out, Math.min(lane.out, bandsOff(stage, reading.temp_c)));
    const x = scale.x(Math.max(0, from + reading.into_s));
    return { reading, x, y: lane.middle - off * lane.half };
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
    const text = `${plain(reading.temp_c, 2)}${reading.unverified === null ? "" : "?"}`;
    const w = textWidth(text, size);
    const place = placeFor({ x, y, w, h: size }, look, scale, taken, lane);
    if (place === undefined) {
      unwritten.push(text);
      return "";
    }
    taken.push(place);
    return line(text, { x: place.x, y: place.y + size * 0.9, size, weight: 600, rim: paper });
  });
  const drawn = [
    points.length > 1
      ? element("path", { d: path, fill: "none", stroke: ink, "stroke-width": look.mark * 0.4 })
      : "",
    ...points.map(({ reading, x, y }) => marker(reading.verdict, x, y, look.mark)),
    ...labels,
  ].join("");
  return { drawn, unwritten };
}

/** The first free place beside, below or above a mark that lies on the lane. */
function placeFor(
  { x, y, w, h }: Box,
  look: Look,
  scale: TimeScale,
  taken: readonly Box[],
  lane: Lane,
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
      box.y >= lane.top - h * 0.2 &&
      box.y + h <= lane.top + lane.height + h * 0.3 &&
      !taken.some((one) => overlap(one, box)),
  );
}

/** What the marks of the trace mean; only those that are there. */
export function traceLegend(session: SharedSession): string {
  const readings = session.stages.flatMap((stage) => stage.readings);
  const has = (verdict: string): boolean => readings.some((one) => one.verdict === verdict);
  const banded = session.stages.some(({ tolerance_c }) => tolerance_c !== null);
  return [
    ...(banded ? ["grey band: allowed, each bath's drawn alike"] : []),
    ...(has("inside") ? ["dot: inside"] : []),
    ...(has("above") ? ["solid triangle up: too warm"] : []),
    ...(has("below") ? ["hollow triangle down: too cold"] : []),
    ...(has("no band") ? ["diamond: no band given"] : []),
    ...(readings.some(({ unverified }) => unverified !== null)
      ? ["?: thermometer not verified"]
      : []),
  ].join("; ");
}
