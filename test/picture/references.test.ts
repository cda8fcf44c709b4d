import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import pixelmatch from "pixelmatch";
import { PNG } from "pngjs";
import { expect, test } from "vitest";
import { chartOf } from "../../src/domain/session/chart.ts";
import type { Shape } from "../../src/picture/look.ts";
import { toPng } from "../../src/picture/png.ts";
import { seasonPicture } from "../../src/picture/season-picture.ts";
import { sessionPicture } from "../../src/picture/session-picture.ts";
import { type Picture, temperatureChart } from "../../src/picture/temperature-chart.ts";
import { benchSession } from "../support/bench-session.ts";
import { inventedSeason } from "../support/invented-season.ts";
import { at } from "../support/runs.ts";

const folder = import.meta.dirname;

/** References are kept at this width, px: small, and still every mark is there. */
const widths: Readonly<Record<Shape, number>> = { wide: 600, phone: 360 };

/** As many pixels may look different before somebody has to look: lines that fall between pixels. */
const MOST_DIFFERENT = 0.002;

/** Share of pixels that look different; another size is another picture. */
function different(one: PNG, other: PNG): number {
  if (one.width !== other.width || one.height !== other.height) return 1;
  const { width, height } = one;
  // 0.1 is the library's own measure of what an eye tells apart (YIQ difference).
  const count = pixelmatch(one.data, other.data, undefined, width, height, { threshold: 0.1 });
  return count / (width * height);
}

const drawn = async ({ svg, height, width }: Picture, shape: Shape): Promise<PNG> => {
  const small = widths[shape];
  const picture = { svg, width: small, height: Math.round((height * small) / width) };
  return PNG.sync.read(Buffer.from(await toPng(picture)));
};

const { session, words, run } = benchSession();
const nine = benchSession("reversal-six-bath");
const chart = chartOf(run, at(5000));
const season = inventedSeason();

const pictures: readonly (readonly [string, (shape: Shape) => Picture])[] = [
  ["session", (shape) => sessionPicture(session, words, shape)],
  ["session-nine-baths", (shape) => sessionPicture(nine.session, nine.words, shape)],
  ["season", (shape) => seasonPicture(season, [], shape)],
  ["temperatures", (shape) => temperatureChart(chart, "UTC", shape)],
];
const all = pictures.flatMap(([name, draw]) =>
  (["wide", "phone"] as const).map((shape) => ({ name, shape, draw })),
);

test.each(all)("$name, $shape, looks as it was looked at", async ({ name, shape, draw }) => {
  const file = join(folder, `${name}-${shape}.png`);
  const png = await drawn(draw(shape), shape);
  // To take a new look as the reference: delete the file, run, and look at what was made.
  if (!existsSync(file)) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(file, PNG.sync.write(png, { deflateLevel: 9, colorType: 0 }));
    expect.fail(`there was no ${name}-${shape}.png: look at the one that was made now`);
  }
  const share = different(png, PNG.sync.read(readFileSync(file)));
  expect(share).toBeLessThan(MOST_DIFFERENT);
});

test("the comparison sees what an eye would: one reading at another place", async () => {
  const [first, ...others] = session.stages;
  if (first === undefined) throw new Error("a session without a bath");
  const readings = first.readings.map((one, index) =>
    index === 2 ? { ...one, temp_c: 38.3, verdict: "inside" as const } : one,
  );
  const moved = { ...session, stages: [{ ...first, readings }, ...others] };
  const one = await drawn(sessionPicture(session, words, "wide"), "wide");
  const other = await drawn(sessionPicture(moved, words, "wide"), "wide");
  expect(different(one, one)).toBe(0);
  expect(different(one, other)).toBeGreaterThan(MOST_DIFFERENT);
});
