import type { ChartReading, ChartStage } from "../domain/session/chart.ts";
import { plain } from "../domain/units/show.ts";
import { placeLabels } from "./labels.ts";
import { bandEdge, bandFill, ink, type Look, soft } from "./look.ts";
import { marker } from "./marker.ts";
import type { Scale } from "./panel-scale.ts";
import { type Box, element, escapeXml } from "./svg.ts";
import { degrees, verdictText } from "./temperature-text.ts";
import { line } from "./text-line.ts";

/** The tolerance band with its edges and aim, each named at the left. */
export function bandOf(stage: ChartStage, box: Box, scale: Scale, look: Look): string {
  const { band, aim } = stage;
  const across = { x1: box.x, x2: box.x + box.w };
  // Where the band is narrow its edges are named outside of it, clear of the aim.
  const aside = Math.max(0, Math.min(0.4, 1.1 - scale.half / look.small)) * look.small;
  const label = (temperature: number, weight: number, down = 0): string =>
    line(plain(temperature, 2), {
      x: box.x - look.small * 0.4,
      y: scale.y(temperature) + look.small * 0.35 + down * aside,
      size: look.small,
      weight,
      anchor: "end",
    });
  const parts: string[] = [];
  if (band !== undefined) {
    const [top, bottom] = [scale.y(band.high), scale.y(band.low)];
    parts.push(
      element("rect", { x: box.x, y: top, width: box.w, height: bottom - top, fill: bandFill }),
    );
    for (const y of [top, bottom]) {
      parts.push(
        element("line", { ...across, y1: y, y2: y, stroke: bandEdge, "stroke-width": 2.5 }),
      );
    }
    if (scale.half >= look.small * 0.7) {
      parts.push(label(band.high, 400, -1), label(band.low, 400, 1));
    }
  }
  if (aim !== undefined) {
    const y = scale.y(aim);
    parts.push(
      element("line", {
        ...across,
        y1: y,
        y2: y,
        stroke: ink,
        "stroke-width": 2,
        "stroke-dasharray": `${look.mark} ${look.mark * 0.7}`,
      }),
      label(aim, 700),
    );
  }
  return parts.join("");
}

/** The readings as shapes on a line, each in its place with its figure beside it. */
export function readingsOf(stage: ChartStage, box: Box, scale: Scale, look: Look): string {
  const points = stage.readings.map((reading) => ({
    reading,
    x: scale.x(reading.into),
    y: scale.y(reading.temperature),
  }));
  const path = points.map(({ x, y }, n) => `${n === 0 ? "M" : "L"}${x.toFixed(1)} ${y.toFixed(1)}`);
  const r = look.mark * 1.3;
  return [
    element("path", {
      d: path.join(" "),
      fill: "none",
      stroke: ink,
      "stroke-width": look.mark * 0.3,
    }),
    ...points.map(({ reading, x, y }) =>
      element(
        "g",
        {},
        element("title", {}, escapeXml(`${stage.bath}: ${said(reading)}`)),
        marker(reading.verdict, x, y, look.mark),
      ),
    ),
    ...placeLabels(
      points.map(({ reading, ...point }) => ({
        ...point,
        bold: isOut(reading),
        // The longest that finds a place.
        texts: [
          ...(isOut(reading) ? [said(reading)] : []),
          degrees(reading.temperature),
          plain(reading.temperature, 2),
        ],
      })),
      { box, marks: points.map(({ x, y }) => ({ x: x - r, y: y - r, w: r * 2, h: r * 2 })) },
      look,
    ),
  ].join("");
}

/** Where the scale narrows: a dotted line to either side of the band. */
export function bendsOf(stage: ChartStage, box: Box, scale: Scale, look: Look): string {
  const { aim } = stage;
  const { bend } = scale;
  if (bend === undefined || aim === undefined) return "";
  return [aim + bend, aim - bend]
    .map((temperature) => dotted(box.x, box.x + box.w, scale.y(temperature), look))
    .join("");
}

export const dotted = (x1: number, x2: number, y: number, look: Look): string =>
  element("line", {
    x1,
    x2,
    y1: y,
    y2: y,
    stroke: soft,
    "stroke-width": 2,
    "stroke-dasharray": `2 ${look.mark * 0.9}`,
  });

const isOut = ({ verdict }: ChartReading): boolean => verdict === "above" || verdict === "below";
const said = (reading: ChartReading): string =>
  `${degrees(reading.temperature)}, ${verdictText(reading)}`;
