import { expect, test } from "vitest";
import { valuesOf } from "../../src/reply/reply.ts";
import { attic, cellar, noon, talk } from "../support/talk.ts";

/** Both developers of 8:00 are in, South 60 s after North: pour-outs at 7:50 and 8:50. */
const poured = (gap: number) => [
  "start developer tank north",
  1,
  "north ready",
  9,
  "north in",
  "start developer tank south",
  gap - 10,
  "south ready",
  10,
  "south in",
];
const both = poured(60);

test("no drift, no word of a collision", () => {
  const { values } = talk(cellar, ...both, 60, "temperature 20 in tank north");
  expect(values.collide).toBeUndefined();
});

test("a pour-out that drift moves onto that of another wet tank: both are named, and the seconds apart", () => {
  const { reply, values, bench } = talk(cellar, ...both, 60, "temperature 18.9 in tank north");
  const [north, south] = Object.values(bench.runs).map(({ stages }) => {
    const { inAt, time } = stages[0] ?? {};
    return (inAt ?? 0) + ((time ?? 0) - 10) * 1000;
  });
  expect(north).toBeGreaterThan(noon);
  const apart = Math.abs((south ?? 0) - (north ?? 0)) / 1000;
  expect(apart).toBeLessThan(30);
  expect(values.collide).toEqual([
    expect.objectContaining({ tanks: ["North", "South"], baths: ["developer", "developer"] }),
  ]);
  expect((values.collide as { apart_s: number }[])[0]?.apart_s).toBeCloseTo(apart, 3);
  const line = reply.cautions.join(" ");
  expect(line).toContain(`${Math.round(apart)} s apart. Neither can be moved any more`);
  expect(line).toContain("North pours out developer at");
  expect(line).toContain("South pours out developer at");
});

test("it is said once", () => {
  const told = [...both, 60, "temperature 18.9 in tank north"] as const;
  expect(talk(cellar, ...told, 10, "temperature 18.9 in tank north").values.collide).toBe(
    undefined,
  );
});

test("with a person at each tank nothing collides", () => {
  const { values } = talk(
    cellar,
    "set one person per tank",
    ...both,
    60,
    "temperature 18.9 in tank north",
  );
  expect(values.collide).toBeUndefined();
});

test("adjusting by a word is held against the other tank as well", () => {
  const asked = [...poured(45), 60, "temperature 17.5 in tank north", "yes"] as const;
  expect(talk(attic, ...asked).reply.kind).toBe("question");
  const { reply } = talk(attic, ...asked, "adjust a little");
  expect(valuesOf(reply).collide).toHaveLength(1);
});
