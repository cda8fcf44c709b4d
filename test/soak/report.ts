import { isFlat, levelsOff, type Point, type Trend, trendOf } from "./trend.ts";

export type Row = {
  readonly what: string;
  readonly unit: string;
  readonly points: readonly Point[];
  /** Growth over the whole time that would not matter, in the unit; missing: for the record. */
  readonly trifle?: number;
};

export type Judged = Row & {
  readonly trend: Trend;
  /** It does not grow, or ever more slowly: a leak grows in a straight line. */
  readonly flat: boolean;
  readonly verdict: "for the record" | "flat" | "levels off" | "grows";
};

const HOUR = 3_600_000;

export function judge(row: Row): Judged {
  const first = row.points[0]?.at ?? 0;
  const points = row.points.map(({ at, value }) => ({ at: (at - first) / HOUR, value }));
  const trend = trendOf(points);
  const lasts = points.at(-1)?.at ?? 0;
  const { trifle } = row;
  if (trifle === undefined) return { ...row, trend, flat: true, verdict: "for the record" };
  const enough = points.length >= 8;
  const verdict =
    enough && isFlat(trend, lasts, trifle)
      ? "flat"
      : enough && levelsOff(points)
        ? "levels off"
        : "grows";
  return { ...row, trend, flat: verdict !== "grows", verdict };
}

const said = (figure: number): string => String(Number(figure.toPrecision(3)));

/** What was read, how it went over time, and whether that is flat. */
export function table(rows: readonly Judged[]): string {
  const cells = [
    ["what", "readings", "median", "by hour", "95 % interval", "scatter", "verdict"],
    ...rows.map(({ what, unit, trend, verdict }) => [
      what,
      String(trend.points),
      `${said(trend.median)} ${unit}`,
      said(trend.slope),
      `${said(trend.low)} to ${said(trend.high)}`,
      said(trend.scatter),
      verdict,
    ]),
  ];
  const widths = cells[0]?.map((_, at) => Math.max(...cells.map((row) => row[at]?.length ?? 0)));
  return cells
    .map((row) => row.map((cell, at) => cell.padEnd(widths?.[at] ?? 0)).join("  "))
    .join("\n");
}
