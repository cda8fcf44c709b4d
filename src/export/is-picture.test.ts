import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { benchSession } from "../../test/support/bench-session.ts";
import { inventedSeason } from "../../test/support/invented-season.ts";
import { at } from "../../test/support/runs.ts";
import { smallSvg } from "../../test/support/small-picture.ts";
import { chartOf } from "../domain/session/chart.ts";
import { seasonPicture } from "../picture/season-picture.ts";
import { sessionPicture } from "../picture/session-picture.ts";
import { temperatureChart } from "../picture/temperature-chart.ts";
import { isPicture } from "./is-picture.ts";

const { session, words, run } = benchSession();

describe("what we draw is a picture", () => {
  test.each(["wide", "phone"] as const)("as SVG, %s", (shape) => {
    const drawn = [
      sessionPicture(session, words, shape),
      seasonPicture(inventedSeason(), ['<Dora> & "co"'], shape),
      temperatureChart(chartOf(run, at(5000)), "UTC", shape),
    ];
    for (const { svg } of drawn) expect(isPicture("run-1.svg", Buffer.from(svg))).toBe(true);
  });

  test("as PNG", () => {
    const folder = join(import.meta.dirname, "../../test/picture");
    const names = readdirSync(folder).filter((name) => name.endsWith(".png"));
    expect(names.length).toBeGreaterThan(4);
    for (const name of names) expect(isPicture(name, readFileSync(join(folder, name)))).toBe(true);
  });
});

const svg = String(smallSvg("x"));
const inside = (more: string): string => svg.replace("<text>", `${more}<text>`);

test.each([
  ["a program", "MZ"],
  ["nothing", ""],
  ["a page", "<html><script>alert(1)</script></html>"],
  ["a script", inside("<script>alert(1)</script>")],
  ["what runs when it is shown", inside('<rect onload="alert(1)"/>')],
  ["a link", inside('<a href="https://example.org">x</a>')],
  ["a picture from elsewhere", inside('<image href="https://example.org/x.png"/>')],
  ["another page within", inside("<foreignObject/>")],
  ["a fill from elsewhere", inside('<rect fill="url(https://example.org/x#a)"/>')],
  ["a style", inside("<style>@import 'https://example.org'</style>")],
  ["entities of its own", `<!DOCTYPE svg [<!ENTITY a "b">]>${svg}`],
  ["a comment", inside("<!-- x -->")],
  ["more behind its end", `${svg}<script/>`],
  ["a bracket left open", inside("<rect")],
])("an SVG with or in place of which there is %s is none", (_, text) => {
  expect(isPicture("run-1.svg", Buffer.from(text))).toBe(false);
});

test("a PNG that is none, by its signature, its header or its end", () => {
  const folder = join(import.meta.dirname, "../../test/picture");
  const png = readFileSync(join(folder, "session-wide.png"));
  expect(isPicture("run-1.png", Buffer.from("MZ"))).toBe(false);
  expect(isPicture("run-1.png", smallSvg("x"))).toBe(false);
  expect(isPicture("run-1.png", png.subarray(0, png.length - 1))).toBe(false);
  for (const at of [0, 3, 7, 12, 15, 16]) {
    const spoilt = Buffer.from(png);
    spoilt[at] = (spoilt[at] ?? 0) ^ 0x80;
    expect(isPicture("run-1.png", spoilt)).toBe(false);
  }
});
