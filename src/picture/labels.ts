import { ink, type Look, paper, soft } from "./look.ts";
import { type Box, element, escapeXml, overlap, textWidth } from "./svg.ts";

/** A point of the trace that wants its figure beside it. */
export type Labelled = {
  readonly x: number;
  readonly y: number;
  /** What may be written, the best first. */
  readonly texts: readonly string[];
  readonly bold: boolean;
};

type Field = {
  /** The plot: labels stay inside it. */
  readonly box: Box;
  /** The shapes, which no label may cover. */
  readonly marks: readonly Box[];
};

type Point = { readonly x: number; readonly y: number };

/**
 * A label for each point, clear of the shapes, of each other and of the trace. Points that want a
 * bold one go first; where there is no clear place for any of its texts a plain one goes without,
 * as the words that come with the picture name it all the same.
 *
 * @param points  in the order of the trace
 */
export function placeLabels(
  points: readonly Labelled[],
  { box, marks }: Field,
  look: Look,
): readonly string[] {
  const taken: Box[] = [...marks];
  const first = points.toSorted((a, b) => Number(b.bold) - Number(a.bold));
  return first.flatMap((point) => {
    const found = placeOf(point, points, box, taken, look);
    if (found === undefined) return [];
    const { text, spot, tie } = found;
    taken.push(spot, ...(tie === undefined ? [] : [tie]));
    return [tie === undefined ? "" : tied(tie), drawn(text, spot, point.bold, look)];
  });
}

type Place = { readonly text: string; readonly spot: Box; readonly tie: Box | undefined };

function placeOf(
  point: Labelled,
  trace: readonly Point[],
  box: Box,
  taken: readonly Box[],
  look: Look,
): Place | undefined {
  const clear = (one: Box): boolean => !taken.some((other) => overlap(one, other));
  const find = (text: string, fits: (spot: Box) => boolean): Place | undefined => {
    for (const spot of spotsFor(text, point, box, look)) {
      const tie = tieTo(point, spot, look);
      if (clear(spot) && (tie === undefined || clear(tie)) && fits(spot))
        return { text, spot, tie };
    }
    return undefined;
  };
  for (const text of point.texts) {
    const found = find(text, (spot) => !isCrossed(spot, trace));
    if (found !== undefined) return found;
  }
  // What lies outside its band is named even where the trace leaves no clear place.
  const short = point.texts.at(-1);
  return point.bold && short !== undefined ? find(short, () => true) : undefined;
}

/** Places round a point that lie inside the plot, the nearest first. */
function spotsFor(text: string, { x, y }: Point, box: Box, look: Look): readonly Box[] {
  const w = textWidth(text, look.small) + look.small * 0.3;
  const h = look.small * 1.05;
  const off = look.mark * 1.7;
  const most = box.x + box.w + look.small * 2.6 - w;
  const steps = [0, 1, 2, 3, 4];
  const shifts = [0, -0.3, 0.3, -0.5, 0.5, -0.75, 0.75];
  const all = steps.flatMap((step) =>
    shifts.flatMap((shift) => {
      const left = Math.max(box.x, Math.min(most, x - w / 2 + shift * w));
      return [
        { x: left, y: y - off - h * (1 + step), w, h },
        { x: left, y: y + off + h * step, w, h },
      ];
    }),
  );
  const beside = [
    { x: x + off, y: y - h / 2, w, h },
    { x: x - off - w, y: y - h / 2, w, h },
  ];
  const far = ({ x: left, y: top }: Box): number =>
    Math.hypot(left + w / 2 - x, (top + h / 2 - y) * 1.6);
  return [...all, ...beside]
    .filter(
      (spot) =>
        spot.x >= box.x - 1 &&
        spot.x <= most + 1 &&
        spot.y >= box.y - 2 &&
        spot.y + h <= box.y + box.h + 2,
    )
    .toSorted((a, b) => far(a) - far(b));
}

/** Does the line through these points run through a box? */
export const isCrossed = (box: Box, trace: readonly Point[]): boolean =>
  trace.slice(1).some((to, index) => {
    const from = trace[index];
    return from !== undefined && cuts(box, from, to);
  });

/** Liang and Barsky: the part of a segment inside a box, if there is one. */
function cuts({ x, y, w, h }: Box, from: Point, to: Point): boolean {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  let [enter, leave] = [0, 1];
  for (const [step, room] of [
    [-dx, from.x - x],
    [dx, x + w - from.x],
    [-dy, from.y - y],
    [dy, y + h - from.y],
  ] as const) {
    if (step === 0) {
      if (room < 0) return false;
    } else if (step < 0) enter = Math.max(enter, room / step);
    else leave = Math.min(leave, room / step);
  }
  return enter <= leave;
}

/** A label that had to go further away is tied to its point by a thin upright line. */
function tieTo({ x, y }: Point, spot: Box, look: Look): Box | undefined {
  const below = spot.y > y;
  const [from, to] = below ? [y + look.mark * 1.5, spot.y] : [spot.y + spot.h, y - look.mark * 1.5];
  if (to - from < look.small * 0.5) return undefined;
  const at = Math.max(spot.x, Math.min(spot.x + spot.w, x));
  return { x: at - 0.75, y: from, w: 1.5, h: to - from };
}

const tied = ({ x, y, w, h }: Box): string =>
  element("rect", { x, y, width: w, height: h, fill: soft });

/** A label with a rim of paper, so that no line runs through its figures. */
function drawn(text: string, { x, y, w, h }: Box, bold: boolean, look: Look): string {
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
