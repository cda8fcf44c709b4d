import { describe, expect, test } from "vitest";
import { emergencies } from "../../src/data/safety.ts";
import { cellar, talk, wet } from "../support/talk.ts";

const firstAid = (...lines: readonly (string | number)[]) => {
  const { reply, values } = talk(cellar, ...lines);
  return { told: values.first_aid === true, kind: values.kind, reply };
};

describe("first aid goes before an open question", () => {
  const questions = [
    ["start developer for 3"],
    ["learn a sheet called Pier"],
    ["bottle developer"],
    ["trouble"],
    ["trouble", "light got in"],
  ];
  test.each([
    ["i feel dizzy", "breathing"],
    ["fumes", "breathing"],
    ["i got developer on my arm", "skin"],
    ["my hands itch", "skin"],
    ["glass broke cut my hand", "cut"],
    ["thermometer broke", "thermometer"],
    ["broke a thermometer, mercury on the floor", "mercury"],
  ])("%s: %s", (said, kind) => {
    for (const asked of questions) {
      expect(firstAid(...asked, said), asked.join(", ")).toMatchObject({ told: true, kind });
    }
  });
});

test.each(emergencies.map(({ id, say }) => [id, say]))("%s is told in one breath", (_, say) => {
  expect(say.split(/\s+/).length).toBeLessThanOrEqual(12);
});

// Common practice, no source; spilt mercury is spread and vaporised by brushes and vacuum cleaners.
test("mercury is left alone: nobody sweeps, everyone leaves, a service is called", () => {
  const { reply } = firstAid("my thermometer is broken its mercury");
  const all = [reply.title, ...reply.lines].join(" ");
  expect(all).toMatch(/sweep or vacuum/);
  expect(all).toMatch(/everyone/i);
  expect(all).toMatch(/hazardous-waste service/);
});

test("a thermometer of unknown kind: mercury and glass are both told, and the bath it broke in", () => {
  const { reply } = firstAid("dropped the thermometer");
  const all = [reply.title, ...reply.lines].join(" ");
  expect(all).toMatch(/mercury: everyone out/);
  expect(all).toMatch(/glass only/);
  expect(all).toMatch(/bath is not for film/);
});

test.each([[], wet])("help me asks whether anyone is hurt, whatever is going on", (...before) => {
  const { reply } = firstAid(...before, "help me");
  expect(reply.title).toMatch(/^Is anyone hurt\?/);
  expect(reply.say).toMatch(/^Anyone hurt\?/);
});

test.each([
  "note I got developer on my arm",
  "remind me to buy a new thermometer, mine broke tomorrow",
])("%s is written down", (said) => {
  expect(firstAid(...wet, said).told).toBe(false);
});

test.each([
  "my face feels funny",
  "the funnel is broken",
  "everything fell on the floor",
  "there was a spill of sorts",
  "the lamp broke on the table",
])("%s: not understood, and nothing but help for harm is offered", (said) => {
  const { reply, values } = talk(cellar, ...wet, said);
  expect(values.reason).toBe("not-understood");
  expect(values.nearest).toEqual(["emergency", "trouble"]);
  expect(reply.say).toMatch(/Say emergency.*Say trouble/);
});
