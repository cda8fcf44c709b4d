import { simulate } from "@bjornlu/colorblind";
import { Resvg } from "@resvg/resvg-js";
import fc from "fast-check";
import { expect, test } from "vitest";
import { sessionOf } from "../../src/commands/session-of.ts";
import { chartOf } from "../../src/domain/session/chart.ts";
import { fontFiles } from "../../src/picture/fonts.ts";
import { ink, looks, paper, type Shape } from "../../src/picture/look.ts";
import { seasonPicture } from "../../src/picture/season-picture.ts";
import { sessionPicture } from "../../src/picture/session-picture.ts";
import { textWidth } from "../../src/picture/svg.ts";
import { type Picture, temperatureChart } from "../../src/picture/temperature-chart.ts";
import { arbitrarySession } from "../support/arbitrary-session.ts";
import { benchSession } from "../support/bench-session.ts";
import { inventedSeason } from "../support/invented-season.ts";
import { at } from "../support/runs.ts";
import { allOf, parseXml, type Xml } from "../support/xml.ts";

const { session, words, run } = benchSession();
const shapes = ["wide", "phone"] as const;
const pictures: readonly { name: string; shape: Shape; picture: Picture }[] = shapes.flatMap(
  (shape) => [
    { name: "session", shape, picture: sessionPicture(session, words, shape) },
    { name: "season", shape, picture: seasonPicture(inventedSeason(), ["A year."], shape) },
    {
      name: "temperatures",
      shape,
      picture: temperatureChart(chartOf(run, at(5000)), "UTC", shape),
    },
  ],
);

type Rgb = { r: number; g: number; b: number };
const rgbOf = (hex: string): Rgb => {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((from) => parseInt(hex.slice(from, from + 2), 16));
  return { r, g, b };
};

/** Relative luminance and contrast as WCAG 2.2 defines them (from memory, checked on its own ends). */
const luminance = ({ r, g, b }: Rgb): number => {
  const [red = 0, green = 0, blue = 0] = [r, g, b].map((level) => {
    const share = level / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
};
const contrast = (one: Rgb, other: Rgb): number => {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].toSorted((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
};

test("the contrast formula: black on white is 21, grey #767676 on white just passes 4.5", () => {
  expect(contrast(rgbOf("#000000"), rgbOf("#ffffff"))).toBeCloseTo(21, 6);
  expect(contrast(rgbOf("#767676"), rgbOf("#ffffff"))).toBeGreaterThan(4.5);
  expect(contrast(rgbOf("#777777"), rgbOf("#ffffff"))).toBeLessThan(4.5);
});

const number = (xml: Xml, key: string): number => Number(xml.attributes[key] ?? 0);
const textBox = (text: Xml) => {
  const size = number(text, "font-size");
  const w = textWidth(text.text, size);
  const anchor = text.attributes["text-anchor"];
  const x = number(text, "x") - (anchor === "end" ? w : anchor === "middle" ? w / 2 : 0);
  return { x, y: number(text, "y") - size * 0.75, w, h: size * 0.95, size };
};

/** What lies under the middle of a text: the last filled area drawn before it. */
function groundOf(elements: readonly Xml[], index: number): string {
  const text = elements[index];
  if (text === undefined) return paper;
  const box = textBox(text);
  const [mx, my] = [box.x + box.w / 2, box.y + box.h / 2];
  const under = elements.slice(0, index).findLast(({ name, attributes }) => {
    if (name !== "rect" || attributes.fill === undefined) return false;
    const [x, y] = [Number(attributes.x ?? 0), Number(attributes.y ?? 0)];
    const [w, h] = [Number(attributes.width), Number(attributes.height)];
    return mx >= x && mx <= x + w && my >= y && my <= y + h;
  });
  return under?.attributes.fill ?? paper;
}

const eyes = ["deuteranopia", "protanopia", "tritanopia", "achromatopsia"] as const;

test.each(pictures)(
  "$name, $shape: every word stands out from its ground, for any eye and in grey",
  ({ picture }) => {
    const elements = allOf(parseXml(picture.svg));
    let texts = 0;
    elements.forEach((element, index) => {
      if (element.name !== "text") return;
      texts += 1;
      const [letters, ground] = [
        rgbOf(element.attributes.fill ?? ink),
        rgbOf(groundOf(elements, index)),
      ];
      expect(contrast(letters, ground), element.text).toBeGreaterThanOrEqual(4.5);
      for (const eye of eyes) {
        const seen = contrast(simulate(letters, eye), simulate(ground, eye));
        expect(seen, `${element.text}, ${eye}`).toBeGreaterThanOrEqual(4.5);
      }
    });
    expect(texts).toBeGreaterThan(10);
  },
);

test.each(pictures)(
  "$name, $shape: nothing but greys, so that no colour has to be told",
  ({ picture }) => {
    for (const colour of picture.svg.match(/#[0-9a-f]{6}/g) ?? []) {
      const { r, g, b } = rgbOf(colour);
      expect(Math.max(r, g, b) - Math.min(r, g, b), colour).toBeLessThanOrEqual(20);
    }
  },
);

/** A phone shows its picture this wide, CSS px; letters below 10.5 of them are not read with wet glasses (our own bound). */
const PHONE = 360;

test.each(pictures.filter(({ shape }) => shape === "phone"))(
  "$name: letters are large enough at the size of a phone",
  ({ picture }) => {
    for (const element of allOf(parseXml(picture.svg))) {
      if (element.name !== "text") continue;
      const size = (number(element, "font-size") * PHONE) / looks.phone.width;
      expect(size, element.text).toBeGreaterThanOrEqual(10.5);
    }
  },
);

test("a line of text is never wider than it is taken for", () => {
  const fonts = { fontFiles: [...fontFiles()], loadSystemFonts: false };
  for (const text of [
    "developer: 9 s longer than planned",
    "WWWW mmmm @@@@ %%%",
    "read 37.9 °C, 0.3 °C below 38.2 °C (±0.2 °C)",
    "Łódź and Ünterwössen: 14.00 euros a roll",
  ]) {
    for (const weight of [400, 700]) {
      const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="2000" height="90" font-family="'Atkinson Hyperlegible Next'"><text x="0" y="60" font-size="40" font-weight="${weight}">${text}</text></svg>`;
      const width = new Resvg(svg, { font: fonts }).getBBox()?.width ?? 0;
      expect(width).toBeGreaterThan(0);
      expect(width, text).toBeLessThanOrEqual(textWidth(text, 40) + 1);
    }
  }
});

test("any session is drawn well-formed, its words inside the picture and clear of each other", () => {
  const fine = fc.property(arbitrarySession, fc.constantFrom(...shapes), (one, shape) => {
    const { private: _, ...shown } = sessionOf(one.bench, one.run);
    const { svg, width, height } = sessionPicture(shown, ["words"], shape);
    const elements = allOf(parseXml(svg));
    for (const { attributes } of elements) {
      expect(JSON.stringify(attributes)).not.toMatch(/NaN|Infinity|undefined/);
    }
    const boxes = elements
      .filter(({ name }) => name === "text")
      .map((text) => ({ ...textBox(text), text: text.text }));
    for (const [index, box] of boxes.entries()) {
      expect(box.x, box.text).toBeGreaterThanOrEqual(0);
      expect(box.x + box.w, box.text).toBeLessThanOrEqual(width + 1);
      expect(box.y + box.h, box.text).toBeLessThanOrEqual(height);
      for (const other of boxes.slice(index + 1)) {
        const apart =
          box.x + box.w <= other.x + 1 ||
          other.x + other.w <= box.x + 1 ||
          box.y + box.h <= other.y + 1 ||
          other.y + other.h <= box.y + 1;
        expect(apart, `${box.text} / ${other.text}`).toBe(true);
      }
    }
  });
  fc.assert(fine, { numRuns: 150 });
});

test.each(shapes)("%s: what the picture shows stands beside it in words", (shape) => {
  const { svg } = sessionPicture(session, words, shape);
  const [desc] = allOf(parseXml(svg)).filter(({ name }) => name === "desc");
  for (const deviation of session.deviations) expect(desc?.text).toContain(deviation);
  for (const { bath } of session.stages) expect(desc?.text).toContain(bath);
  expect(desc?.text).toContain(session.lesson.text);
  const seen = allOf(parseXml(svg))
    .filter(({ name }) => name === "text")
    .map(({ text }) => text);
  for (const { bath } of session.stages) expect(seen).toContain(bath);
  expect(seen.join(" ")).toContain(session.lesson.text);
});
