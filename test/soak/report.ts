import { isFlat, type Point, type Trend, trendOf } from "./trend.ts";

export type Row = {
  readonly what: string;
  readonly unit: string;
  readonly points: readonly Point[];
  /** Growth over the whole time that would not matter, in the unit; missing: for the record. */
  readonly trifle?: number;
};

export type Judged = Row & {
  readonly trend: Trend;
  readonly flat: boolean;
};

const HOUR = 3_600_000;

export function judge(row: Row): Judged {
  const first = row.points[0]?.at ?? 0;
  const points = row.points.map(({ at, value }) => ({ at: (at - first) / HOUR, value }));
  const trend = trendOf(points);
  const lasts = points.at(-1)?.at ?? 0;
  const { trifle = Number.POSITIVE_INFINITY } = row;
  return { ...row, trend, flat: points.length >= 8 && isFlat(trend, lasts, trifle) };
}

const said = (figure: number): string => String(Number(figure.toPrecision(3)));

/** What was read, how it went over time, and whether that is flat. */
export function table(rows: readonly Judged[]): string {
  const cells = [
    ["what", "readings", "median", "by hour", "95 % interval", "scatter", "verdict"],
    ...rows.map(({ what, unit, trend, flat, trifle }) => [
      what,
      String(trend.points),
      `${said(trend.median)} ${unit}`,
      said(trend.slope),
      `${said(trend.low)} to ${said(trend.high)}`,
      said(trend.scatter),
      trifle === undefined ? "for the record" : flat ? "flat" : "grows",
    ]),
  ];
  const widths = cells[0]?.map((_, at) => Math.max(...cells.map((row) => row[at]?.length ?? 0)));
  return cells
    .map((row) => row.map((cell, at) => cell.padEnd(widths?.[at] ?? 0)).join("  "))
    .join("\n");
}
