import { describe, expect, test } from "vitest";
import { cellar, talk, wet } from "../support/talk.ts";

// Film may see light after a whole fix: common practice, no source. E-6 film after one minute in
// the reversal bath: SS0514, p. 4-3 (read). Cellar: developer 480 s, fixer 300 s, invented.
const asked = (...lines: readonly (string | number)[]) => {
  const { reply, values } = talk(cellar, ...lines);
  const [tank] = values.tanks as readonly { bath: string | null; safety: string }[];
  return { ...tank, reply, all: [reply.title, ...reply.lines].join(" ") };
};
const both = ["start cellar one roll of 120", 1, "ready", 10, "in", 480, "out", 10, "in"] as const;

describe.each([
  "can i open the tank",
  "can i turn the light on",
  "is it safe to turn the lights on",
  "can i take the lid off",
  "can i look at the film",
  "can i stop now",
])("%s", (said) => {
  test("in the developer: which bath, and the lid stays on", () => {
    const { reply, all, safety, bath } = asked(...wet, 60, said);
    expect([safety, bath]).toEqual(["unfixed", "developer"]);
    expect(reply.title).toMatch(/^No\..*film is in developer.*lid stays on/);
    expect(all).toMatch(/lid locked/);
    expect(reply.say).toMatch(/^No\..*developer.*Lid stays on/);
  });

  test("in the fixer it is not yet fixed, and the end is told", () => {
    const { reply, all, safety } = asked(...both, 100, said);
    expect(safety).toBe("unfixed");
    expect(reply.title).toMatch(/^No\./);
    expect(all).toMatch(/fixer is over at \d\d:\d\d/);
  });

  test("after a whole fix light is usually fine, and that is no more than practice", () => {
    const { all, safety } = asked(...both, 300, "out", 1, said);
    expect(safety).toBe("fixed");
    expect(all).toMatch(/common practice, no source/);
    expect(all).toMatch(/Milky or cloudy\? Lid back on/);
  });

  test("a fix cut short is not sure, and the lid stays on", () => {
    const { reply, safety } = asked(...both, 100, "out", "yes", 1, said);
    expect(safety).toBe("unsure");
    expect(reply.title).toMatch(/^No\./);
  });

  test("with no film anywhere it says so", () => {
    const { reply } = talk(cellar, said);
    expect(reply.title).toMatch(/no film in a tank/);
  });
});

test("a developer run on its own leaves unfixed film behind", () => {
  const { safety, reply } = asked(...wet, 480, "out", 5, "can i open the tank");
  expect(safety).toBe("unfixed");
  expect(reply.title).toMatch(/had developer last/);
});

test("a wash started by itself after a whole fix is of fixed film", () => {
  const wash = ["start wash for 5 minutes", 1, "ready", 5, "in", "can i open the tank"] as const;
  expect(asked(...both, 300, "out", 30, ...wash).safety).toBe("fixed");
});

describe("the published reversal cycle", () => {
  const reversal = (gone: number) => {
    const six = [
      "use sheet e-6",
      "start first developer one roll of 120",
      1,
      "ready",
      5,
      "in",
      360,
      "out",
    ];
    const rest = [
      "start reversal",
      "yes",
      1,
      "ready",
      5,
      "in",
      gone,
      "is it safe to turn the lights on",
    ];
    const { values } = talk(undefined, ...six, ...rest);
    return (values.tanks as readonly { safety: string }[])[0]?.safety;
  };
  test("light is safe after a minute in the reversal bath, and not before", () => {
    expect([reversal(55), reversal(65)]).toEqual(["unfixed", "reversed"]);
  });
});
