import type { Chart, ChartStage, Verdict } from "../domain/session/chart.ts";
import { fontFamily, ink, type Look, looks, paper, rule, type Shape, soft } from "./look.ts";
import { marker } from "./marker.ts";
import { hasPlot, panel, panelHeight } from "./panel.ts";
import { scaleOf } from "./panel-scale.ts";
import { dotted } from "./plot.ts";
import { element, escapeXml, fitText, textWidth, wrapText } from "./svg.ts";
import { chartTitle, temperatureText } from "./temperature-text.ts";
import { line } from "./text-line.ts";

/** A picture as SVG text, with its size in px. */
export type Picture = { readonly svg: string; readonly width: number; readonly height: number };

/**
 * A run as a picture: one panel a stage, in order. Each panel has its own scale of degrees, so that
 * a band of ±0.15 °C can be judged as well as one of ±3 °C.
 */
export function temperatureChart(chart: Chart, zone: string, shape: Shape): Picture {
  const look = fillingOut(chart, zone, looks[shape]);
  const top = headOf(chart, zone, look);
  const body = rowsOf(chart.stages, look, top.height);
  const legend = legendOf(chart, look);
  const height = heightOf(top, body.bottom, legend, look);
  const svg = element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      width: look.width,
      height,
      viewBox: `0 0 ${look.width} ${height}`,
      "font-family": `'${fontFamily}', sans-serif`,
      role: "img",
    },
    element("title", {}, escapeXml(chartTitle(chart, zone))),
    element("desc", {}, escapeXml(temperatureText(chart, zone).join("\n"))),
    element("rect", { width: look.width, height, fill: paper }),
    top.drawn,
    body.drawn,
    legend.draw(body.bottom),
  );
  return { svg, width: look.width, height };
}

/** Where a scale narrows there has to be room for what lies beyond the band. */
const NARROWED = 1.35;

/** The look with its plots as high as the picture has room for. */
function fillingOut(chart: Chart, zone: string, plain: Look): Look {
  const look = isNarrowed(chart, plain) ? { ...plain, plot: plain.plot * NARROWED } : plain;
  const plots = chart.stages.filter(hasPlot).length;
  if (plots === 0 || look.columns(chart.stages.length) > 1) return look;
  const top = headOf(chart, zone, look);
  const { bottom } = rowsOf(chart.stages, look, top.height);
  const room = look.fullHeight - bottom - legendOf(chart, look).height - look.margin;
  const plot = look.plot + Math.max(0, room) / plots;
  return { ...look, plot: Math.max(look.plot, Math.min(plain.plot * look.growth, plot)) };
}

const heightOf = (top: Drawn, bottom: number, legend: { readonly height: number }, look: Look) =>
  Math.ceil(Math.max(top.height, bottom + legend.height + look.margin, look.leastHeight));

type Drawn = { readonly drawn: string; readonly height: number };

function headOf(chart: Chart, zone: string, look: Look): Drawn {
  const width = look.width - look.margin * 2;
  const [name = "", when = ""] = splitOnce(chartTitle(chart, zone));
  const parts: string[] = [];
  let y = look.margin + look.title;
  for (const text of wrapText(name, look.title, width).slice(0, 3)) {
    parts.push(line(text, { x: look.margin, y, size: look.title, weight: 700 }));
    y += look.title * 1.15;
  }
  y += look.text * 1.1 - look.title * 0.95;
  parts.push(
    line(fitText(when, look.text, width), { x: look.margin, y, size: look.text, fill: soft }),
  );
  if (chart.mark !== undefined) {
    const lines = wrapText(chart.mark, look.text, width - look.text * 1.4);
    const h = (lines.length * 1.3 + 0.7) * look.text;
    parts.push(
      element("rect", { x: look.margin, y: y + look.text * 0.7, width, height: h, fill: ink }),
    );
    lines.forEach((text, index) => {
      parts.push(
        line(text, {
          x: look.margin + look.text * 0.7,
          y: y + look.text * (2 + index * 1.3),
          size: look.text,
          weight: 700,
          fill: paper,
        }),
      );
    });
    y += h + look.text * 0.7;
  }
  return { drawn: parts.join(""), height: y + look.gap };
}

/** The title's name and its date and time, which stand on a line of their own. */
function splitOnce(title: string): readonly [string, string] {
  const parts = title.split(", ");
  return [parts.slice(0, -2).join(", "), parts.slice(-2).join(", ")];
}

function rowsOf(
  stages: readonly ChartStage[],
  look: Look,
  from: number,
): { readonly drawn: string; readonly bottom: number } {
  const columns = Math.max(1, look.columns(stages.length));
  const width = (look.width - look.margin * 2 - look.gap * (columns - 1)) / columns;
  const parts: string[] = [];
  let y = from;
  for (let first = 0; first < stages.length; first += columns) {
    const row = stages.slice(first, first + columns);
    parts.push(
      element("line", {
        x1: look.margin,
        x2: look.width - look.margin,
        y1: y - look.gap * 0.55,
        y2: y - look.gap * 0.55,
        stroke: rule,
        "stroke-width": 2,
      }),
    );
    row.forEach((stage, index) => {
      const x = look.margin + index * (width + look.gap);
      parts.push(panel(stage, { x, y, w: width, h: 0 }, look, hasPlot(stage)));
    });
    y +=
      Math.max(...row.map((stage) => panelHeight(stage, look, width, hasPlot(stage)))) + look.gap;
  }
  return { drawn: parts.join(""), bottom: y };
}

const meanings: Readonly<Record<Verdict, string>> = {
  inside: "inside the band",
  above: "too warm",
  below: "too cold",
  "no band": "no band given",
};

/** Does a reading of this chart lie so far off that its scale narrows? */
const isNarrowed = (chart: Chart, look: Look): boolean =>
  chart.stages.some(
    (stage) =>
      hasPlot(stage) &&
      scaleOf(stage, { x: 0, y: 0, w: 100, h: look.plot }, look).bend !== undefined,
  );

/** What the shapes on this picture mean; only those that are on it. */
function legendOf(
  chart: Chart,
  look: Look,
): { readonly height: number; readonly draw: (top: number) => string } {
  const used = new Set(chart.stages.flatMap(({ readings }) => readings.map((one) => one.verdict)));
  const shapes = (["inside", "above", "below", "no band"] as const).filter((one) => used.has(one));
  if (shapes.length === 0) {
    const text = "No temperature was read in this run.";
    return {
      height: look.small * 1.4,
      draw: (top) =>
        line(text, { x: look.margin, y: top + look.small, size: look.small, fill: soft }),
    };
  }
  const meaning = (verdict: Verdict): string => meanings[verdict];
  const narrowed = isNarrowed(chart, look);
  const rows: { readonly verdict: Verdict; readonly x: number; readonly row: number }[] = [];
  let x = look.margin + look.mark * 1.5;
  let row = 0;
  for (const verdict of shapes) {
    const w = look.mark * 2.6 + textWidth(meaning(verdict), look.small) + look.small;
    if (x + w > look.width - look.margin && x > look.margin + look.mark * 1.5) {
      x = look.margin + look.mark * 1.5;
      row += 1;
    }
    rows.push({ verdict, x, row });
    x += w;
  }
  const step = look.small * 1.6;
  return {
    height: (row + (narrowed ? 2 : 1)) * step,
    draw: (top) =>
      (narrowed ? bendMeaning(look, top + step * (row + 1.5)) : "") +
      rows
        .map(({ verdict, x: at, row: down }) => {
          const y = top + step * (down + 0.5);
          return [
            marker(verdict, at, y, look.mark),
            line(meaning(verdict), {
              x: at + look.mark * 2.2,
              y: y + look.small * 0.35,
              size: look.small,
            }),
          ].join("");
        })
        .join(""),
  };
}

function bendMeaning(look: Look, y: number): string {
  const long = look.mark * 4;
  return [
    dotted(look.margin, look.margin + long, y, look),
    line("from here on degrees stand closer", {
      x: look.margin + long + look.mark,
      y: y + look.small * 0.35,
      size: look.small,
    }),
  ].join("");
}
