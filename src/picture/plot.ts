import type { ChartReading, ChartStage } from "../domain/session/chart.ts";
import { plain } from "../domain/units/show.ts";
import { bandEdge, bandFill, ink, type Look, paper } from "./look.ts";
import { marker } from "./marker.ts";
import type { Scale } from "./panel-scale.ts";
import { type Box, element, escapeXml, overlap, textWidth } from "./svg.ts";
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

/** The readings as shapes on a line, each with its figure beside it. */
export function readingsOf(stage: ChartStage, box: Box, scale: Scale, look: Look): string {
  const points = stage.readings.map((reading) => ({
    reading,
    x: scale.x(reading.into),
    y: scale.y(reading.temperature),
  }));
  const path = points.map(({ x, y }, n) => `${n === 0 ? "M" : "L"}${x.toFixed(1)} ${y.toFixed(1)}`);
  const parts: string[] = [
    element("path", {
      d: path.join(" "),
      fill: "none",
      stroke: ink,
      "stroke-width": look.mark * 0.3,
    }),
  ];
  const taken: Box[] = points.map(({ x, y, reading }) => {
    const more = scale.isOff(reading.temperature) ? look.mark * 1.2 : 0;
    const up = offBy(reading) < 0 ? more : 0;
    const r = look.mark * 1.3;
    return { x: x - r, y: y - r - up, w: r * 2, h: r * 2 + more };
  });
  for (const { reading, x, y } of points) {
    parts.push(
      element(
        "g",
        {},
        element("title", {}, escapeXml(`${stage.bath}: ${said(reading)}`)),
        marker(reading.verdict, x, y, look.mark),
        scale.isOff(reading.temperature)
          ? marker(reading.verdict, x, y + offBy(reading) * look.mark * 1.7, look.mark * 0.6)
          : "",
      ),
    );
  }
  // What lies outside is named first: where there is no room for all, those keep their labels.
  const outFirst = points.toSorted((a, b) => weight(b.reading) - weight(a.reading));
  for (const { reading, x, y } of outFirst) {
    const long = isOut(reading) ? `${degrees(reading.temperature)}, ${verdictText(reading)}` : "";
    for (const text of [long, degrees(reading.temperature), plain(reading.temperature, 2)]) {
      const spot = text === "" ? undefined : spotFor(text, x, y, box, taken, look);
      if (spot === undefined) continue;
      taken.push(spot);
      parts.push(labelAt(text, spot, isOut(reading), look));
      break;
    }
  }
  return parts.join("");
}

/** A reading off the scale has a second, small shape farther out. */
const offBy = ({ verdict }: ChartReading): number =>
  verdict === "above" ? -1 : verdict === "below" ? 1 : 0;
const isOut = ({ verdict }: ChartReading): boolean => verdict === "above" || verdict === "below";
const weight = (reading: ChartReading): number => (isOut(reading) ? 1 : 0);
const said = (reading: ChartReading): string =>
  `${degrees(reading.temperature)}, ${verdictText(reading)}`;

/** The first free place for a label round its marker, inside the panel's plot. */
function spotFor(
  text: string,
  x: number,
  y: number,
  box: Box,
  taken: readonly Box[],
  look: Look,
): Box | undefined {
  const w = textWidth(text, look.small) + look.small * 0.3;
  const h = look.small * 1.05;
  const off = look.mark * 1.7;
  const most = box.x + box.w + look.small * 2.6 - w;
  const centre = Math.max(box.x, Math.min(most, x - w / 2));
  const above = { x: centre, y: y - off - h, w, h };
  const below = { x: centre, y: y + off, w, h };
  const right = { x: x + off, y: y - h / 2, w, h };
  const left = { x: x - off - w, y: y - h / 2, w, h };
  const farAbove = { ...above, y: above.y - h };
  const farBelow = { ...below, y: below.y + h };
  const inside = (spot: Box): boolean =>
    spot.x >= box.x - 1 &&
    spot.x <= most + 1 &&
    spot.y >= box.y - 2 &&
    spot.y + h <= box.y + box.h + 2;
  const far = [right, left, farAbove, farBelow];
  const tries = y <= box.y + box.h / 2 ? [above, below, ...far] : [below, above, ...far];
  return tries.find((spot) => inside(spot) && !taken.some((other) => overlap(spot, other)));
}

/** A label with a rim of paper, so that no line runs through its figures. */
function labelAt(text: string, { x, y, w, h }: Box, bold: boolean, look: Look): string {
  return element(
    "text",
    {
      x: x + w / 2,
      y: y + h * 0.8,
      "font-size": look.small,
      "font-weight": bold ? 700 : 500,
      fill: ink,
      stroke: paper,
      "stroke-width": look.small * 0.22,
      "stroke-linejoin": "round",
      "paint-order": "stroke",
      "text-anchor": "middle",
    },
    escapeXml(text),
  );
}
