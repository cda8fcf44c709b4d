import fc from "fast-check";
import { expect, test } from "vitest";
import { weighJson } from "./weigh-json.ts";

const weigh = (text: string) => weighJson(Buffer.from(text));

const valuesIn = (value: unknown): number =>
  typeof value === "object" && value !== null
    ? 1 + Object.values(value).reduce<number>((sum, inner) => sum + valuesIn(inner), 0)
    : 1;

const depthOf = (value: unknown): number =>
  typeof value === "object" && value !== null
    ? 1 + Math.max(0, ...Object.values(value).map(depthOf))
    : 0;

test("it is never less than what is made of the text, and twice as much at most", () => {
  const law = fc.property(fc.jsonValue({ maxDepth: 6 }), fc.boolean(), (value, spread) => {
    const { values, depth } = weigh(JSON.stringify(value, undefined, spread ? 2 : undefined));
    expect(values).toBeGreaterThanOrEqual(valuesIn(value));
    expect(values).toBeLessThanOrEqual(2 * valuesIn(value));
    expect(depth).toBe(depthOf(value));
  });
  fc.assert(law);
});

test("signs within text are no values", () => {
  expect(weigh(JSON.stringify('a [{,"} \\'))).toEqual({ values: 1, depth: 0 });
  expect(weigh('["\\\\",1]')).toEqual({ values: 3, depth: 1 });
});

test("what is no JSON is weighed as well", () => {
  expect(weigh(']]}}"').values).toBe(1);
  expect(weigh("[".repeat(1000)).depth).toBe(1000);
});
