import { describe, expect, test } from "vitest";
import { isDeveloper } from "../../src/domain/process/sheet.ts";
import { cellar, talk, wet } from "../support/talk.ts";

// The account behind "no more than edge streaks" is of a second of light near the end of the
// developer (an experimenter's opened tank, read in excerpt). White light during development turns
// tones partly positive, the outer turns first: SS0509-8 Laboratory Procedures, lesson 3, p. 85
// (read in excerpt). Cellar develops for 480 s, invented.
const told = (...lines: readonly (string | number)[]) => {
  const { reply, values, run } = talk(cellar, ...lines);
  return { all: [reply.title, ...reply.lines].join(" "), reply, values, run };
};
const asked = ["trouble", "light got in", "developer"] as const;

describe.each([
  ["the questions answered", asked],
  ["told in a sentence", ["someone turned the light on"]],
])("light in the developer, %s", (_, said) => {
  test("just after the pour: fog is to be expected, and no account of the end is quoted", () => {
    const { all, reply } = told(...wet, ...said);
    expect(all).toMatch(/0 s of 8:00 in developer had gone/);
    expect(all).toMatch(/fog/);
    expect(reply.say).toMatch(/Expect fog/);
    expect(all).not.toMatch(/no more than/);
  });

  test("half way through is early", () => {
    expect(told(...wet, 240, ...said).all).not.toMatch(/no more than/);
  });

  test("near the end: the account is quoted as one account of one second", () => {
    const { all } = told(...wet, 430, ...said);
    expect(all).toMatch(/a second of light near the end .* in one account/);
    expect(all).toMatch(/Longer than that: expect fog/);
  });

  test("the record has it as it always had", () => {
    const { run, values } = told(...wet, 430, ...said);
    expect(values.detail).toBe("developer");
    expect(run?.troubles?.[0]).toMatchObject({ what: "light got in" });
  });
});

test("with no clock running neither is claimed", () => {
  const { all } = told(...asked);
  expect(all).toMatch(/I do not know how long/);
  expect(all).toMatch(/earlier or longer, expect fog/);
});

test("told in a sentence with no film in a bath, the bath is asked for and never what happened", () => {
  const { reply } = told("light got in");
  expect(reply.title).toBe("Which bath is the film in?");
});

test("in the fixer it is the case after the developer", () => {
  const lines = ["start fixer one roll of 120", 1, "ready", 10, "in", "light got in"] as const;
  const { values, run } = told(...lines);
  expect(isDeveloper(run?.stages[0]?.kind ?? "")).toBe(false);
  expect(values).toMatchObject({ what: "light", detail: "after developer" });
});

// Alkaline fixers need no acid stop: The Darkroom Cookbook, p. 106 (read); else common practice.
test.each(["i forgot the stop bath", "forgot the stop"])(
  "%s: go on, nothing is forgotten",
  (said) => {
    const { values, all } = told(...wet, said);
    expect(values).toMatchObject({ what: "forgot", detail: "the stop" });
    expect(all).toMatch(/Go on with the next bath/);
  },
);

test("fixer poured first: the verdict comes at once", () => {
  const { values, all } = told(...wet, "poured in the fixer instead of the developer");
  expect(values).toMatchObject({ what: "wrong bath", detail: "blix or fixer first" });
  expect(all).toMatch(/picture is lost/);
});

test("a leak asks the one question that matters, skin or eyes", () => {
  expect(told(...wet, "its leaking").reply.title).toBe("Is anything on skin or in eyes?");
});
