import type { ChartStage } from "../domain/session/chart.ts";
import { seconds, secondsBetween } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { ink, type Look, paper, rule, soft } from "./look.ts";
import type { Scale } from "./panel-scale.ts";
import { type Box, element, textWidth } from "./svg.ts";
import { line } from "./text-line.ts";

export const gridLine = (x: number, y1: number, y2: number): string =>
  element("line", { x1: x, x2: x, y1, y2, stroke: rule, "stroke-width": 1.5 });

/** The time as planned, hollow, and as it was, solid; each with its length behind it. */
export function barsOf(stage: ChartStage, box: Box, x: number, scale: Scale, look: Look): string {
  const thick = look.bar;
  const rowY = (row: number): number => box.y + thick * 0.2 + row * thick * 1.6;
  const bar = (row: number, length: number, attributes: Record<string, string | number>): string =>
    element("rect", {
      x: scale.zero,
      y: rowY(row),
      width: Math.max(2, scale.x(length) - scale.zero),
      height: thick,
      ...attributes,
    });
  const named = (row: number, name: string, length: number, weightOf: number): string => {
    const y = rowY(row) + thick * 0.5 + look.small * 0.36;
    return [
      line(name, { x, y, size: look.small, fill: soft }),
      line(showDuration(seconds(length)), {
        x: scale.x(length) + look.small * 0.35,
        y,
        size: look.small,
        weight: weightOf,
      }),
    ].join("");
  };
  const parts = [
    bar(0, stage.time, { fill: paper, stroke: ink, "stroke-width": 2.5 }),
    named(0, "plan", stage.time, 400),
  ];
  if (stage.real === undefined) {
    const y = rowY(1) + thick * 0.5 + look.small * 0.36;
    parts.push(line("not yet poured", { x: scale.zero, y, size: look.small, fill: soft }));
    return parts.join("");
  }
  const took = secondsBetween(stage.real.from, stage.real.to);
  parts.push(bar(1, took, { fill: ink }), named(1, stage.open ? "so far" : "real", took, 700));
  return parts.join("");
}

/** Times under the grid, as many as fit. */
export function ticksOf(steps: readonly number[], scale: Scale, y: number, look: Look): string {
  let free = Number.NEGATIVE_INFINITY;
  return steps
    .map((at) => {
      const text = at === 0 ? "0" : showDuration(seconds(at));
      const half = textWidth(text, look.small * 0.9) / 2;
      const x = scale.x(at);
      if (x - half < free) return "";
      free = x + half + look.small * 0.4;
      return line(text, { x, y, size: look.small * 0.9, fill: soft, anchor: "middle" });
    })
    .join("");
}
