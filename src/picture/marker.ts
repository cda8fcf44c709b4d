import type { Verdict } from "../domain/session/chart.ts";
import { bandFill, ink, paper } from "./look.ts";
import { element } from "./svg.ts";

/** A reading's shape: a dot inside the band, a triangle pointing out of it, a hollow diamond without one. */
export function marker(verdict: Verdict, x: number, y: number, r: number): string {
  const edge = { stroke: ink, "stroke-width": r * 0.32, "stroke-linejoin": "round" };
  switch (verdict) {
    case "inside":
      return element("circle", { cx: x, cy: y, r, fill: ink, stroke: paper, "stroke-width": 2 });
    case "above":
      return polygon(
        [
          [x, y - r * 1.35],
          [x + r * 1.3, y + r * 0.95],
          [x - r * 1.3, y + r * 0.95],
        ],
        { fill: ink, ...edge },
      );
    case "below":
      return polygon(
        [
          [x, y + r * 1.35],
          [x + r * 1.3, y - r * 0.95],
          [x - r * 1.3, y - r * 0.95],
        ],
        { fill: paper, ...edge },
      );
    case "no band":
      return polygon(
        [
          [x, y - r * 1.3],
          [x + r * 1.3, y],
          [x, y + r * 1.3],
          [x - r * 1.3, y],
        ],
        { fill: bandFill, ...edge },
      );
  }
}

type Point = readonly [number, number];
const polygon = (points: readonly Point[], attributes: Parameters<typeof element>[1]): string =>
  element("polygon", {
    points: points.map((point) => point.map((at) => Math.round(at * 10) / 10).join(",")).join(" "),
    ...attributes,
  });
