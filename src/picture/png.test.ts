import { inflateSync } from "node:zlib";
import { expect, test } from "vitest";
import { livedRun } from "../../test/support/lived-run.ts";
import { at, runOf, stageOf, washOf } from "../../test/support/runs.ts";
import { chartOf } from "../domain/session/chart.ts";
import { celsius, celsiusDifference } from "../domain/units/quantity.ts";
import { toPng } from "./png.ts";
import { temperatureChart } from "./temperature-chart.ts";

const warm = { temperature: celsius(38), tolerance: celsiusDifference(0.3) };
const run = livedRun(runOf([stageOf(warm), washOf()]), {
  read: [{ stage: 0, into: 60, temperature: 38.5 }],
});
const chart = chartOf(run, at(5000));

/** Size of a PNG, and how many different bytes its picture holds before it is packed. */
function lookInto(png: Uint8Array) {
  const bytes = Buffer.from(png);
  const parts: Buffer[] = [];
  for (let from = 8; from < bytes.length; ) {
    const length = bytes.readUInt32BE(from);
    const kind = bytes.toString("latin1", from + 4, from + 8);
    if (kind === "IDAT") parts.push(bytes.subarray(from + 8, from + 8 + length));
    from += length + 12;
  }
  return {
    signature: bytes.toString("latin1", 1, 4),
    size: [bytes.readUInt32BE(16), bytes.readUInt32BE(20)],
    shades: new Set(inflateSync(Buffer.concat(parts))).size,
  };
}

test.each(["wide", "phone"] as const)(
  "%s: a PNG of the picture's size that is not blank",
  async (shape) => {
    const picture = temperatureChart(chart, "UTC", shape);
    const { signature, size, shades } = lookInto(await toPng(picture));
    expect(signature).toBe("PNG");
    expect(size).toEqual([picture.width, picture.height]);
    expect(shades).toBeGreaterThan(50);
  },
);

test("the letters are drawn with the project's own font", async () => {
  const written = (words: string) => ({
    svg: `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="60" font-family="'Atkinson Hyperlegible Next'"><rect width="200" height="60" fill="#fff"/><text x="10" y="40" font-size="30">${words}</text></svg>`,
    width: 200,
    height: 60,
  });
  const [blank, words] = await Promise.all([toPng(written("")), toPng(written("38.2 °C"))]);
  expect(lookInto(blank).shades).toBeLessThan(lookInto(words).shades);
});

test("while a picture is drawn this thread goes on: a timer meanwhile is not late for it", async () => {
  let beats = 0;
  const timer = setInterval(() => {
    beats += 1;
  }, 1);
  await toPng(temperatureChart(chart, "UTC", "phone"));
  clearInterval(timer);
  expect(beats).toBeGreaterThan(5);
});

test("what is no picture is a fault, and nothing hangs", async () => {
  await expect(toPng({ svg: "<svg", width: 100, height: 100 })).rejects.toThrow();
});
