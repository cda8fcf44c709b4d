import fc from "fast-check";
import { expect, test } from "vitest";
import { parseXml } from "../../test/support/xml.ts";
import { isCrossed, placeLabels } from "./labels.ts";
import { wide } from "./look.ts";
import { overlap, textWidth } from "./svg.ts";

const box = { x: 100, y: 100, w: 900, h: 300 };
const point = fc.record({
  x: fc.integer({ min: 120, max: 960 }),
  y: fc.integer({ min: 130, max: 370 }),
});

test("a segment is found in a box as walking along it in small steps finds it", () => {
  const inside = { x: 300, y: 200, w: 120, h: 40 };
  fc.assert(
    fc.property(point, point, (from, to) => {
      const steps = Array.from({ length: 4001 }, (_, n) => n / 4000);
      const met = steps.some((share) => {
        const x = from.x + (to.x - from.x) * share;
        const y = from.y + (to.y - from.y) * share;
        return x > 300.5 && x < 419.5 && y > 200.5 && y < 239.5;
      });
      if (met) expect(isCrossed(inside, [from, to])).toBe(true);
      else {
        const smaller = { x: 301, y: 201, w: 118, h: 38 };
        expect(isCrossed(smaller, [from, to])).toBe(false);
      }
    }),
  );
});

test("no label lies on the trace, on a shape or on another label", () => {
  fc.assert(
    fc.property(fc.array(point, { minLength: 1, maxLength: 12 }), (points) => {
      const trace = points.toSorted((a, b) => a.x - b.x);
      const labelled = trace.map((one) => ({ ...one, texts: ["37.85 °C"], bold: false }));
      const marks = trace.map(({ x, y }) => ({ x: x - 10, y: y - 10, w: 20, h: 20 }));
      const h = wide.small * 1.05;
      const w = textWidth("37.85 °C", wide.small) + wide.small * 0.3;
      const spots = placeLabels(labelled, { box, marks }, wide)
        .filter((drawn) => drawn.startsWith("<text"))
        .map((drawn) => parseXml(drawn).attributes)
        .map(({ x, y }) => ({ x: Number(x) - w / 2, y: Number(y) - h * 0.8, w, h }));
      for (const [n, spot] of spots.entries()) {
        const inner = { x: spot.x + 1, y: spot.y + 1, w: spot.w - 2, h: spot.h - 2 };
        expect(isCrossed(inner, trace)).toBe(false);
        for (const other of [...marks, ...spots.slice(n + 1)]) {
          expect(overlap(inner, other)).toBe(false);
        }
      }
    }),
    { numRuns: 60 },
  );
});

test("what lies outside its band is named even in a thicket", () => {
  const thicket = Array.from({ length: 60 }, (_, n) => ({
    x: 110 + n * 14,
    y: n % 2 === 0 ? 110 : 390,
  }));
  const texts = ["39.9 °C, too warm", "39.9"];
  const last = { x: 500, y: 250, texts, bold: true };
  const drawn = placeLabels(
    [...thicket.map((one) => ({ ...one, texts: [], bold: false })), last],
    { box, marks: [] },
    wide,
  );
  expect(drawn.join("")).toContain("39.9");
});
