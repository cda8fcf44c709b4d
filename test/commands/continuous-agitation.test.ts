import { describe, expect, test } from "vitest";
import { firstAgitation } from "../../src/domain/timing/stage-clock.ts";
import { cellar, talk } from "../support/talk.ts";

const rotary = [
  "tank alder is rotary",
  "start developer one roll of 120 tank alder",
  1,
  "ready",
  10,
  "in",
] as const;

describe("a drum turns from the start of a time to its end", () => {
  test.each([
    ["colder, so longer", "temperature 19"],
    ["warmer, so shorter", "temperature 20.9"],
  ])("also where drift made the time another: %s", (_, reading) => {
    const { stage, reply } = talk(cellar, ...rotary, 60, reading);
    expect(reply.facts.drift).toBe("replan");
    expect(stage?.time).not.toBe(480);
    expect(stage?.agitation).toMatchObject({ initial: stage?.time });
    expect(stage?.agitation?.every).toBeUndefined();
    // It stops for pouring out, at the new moment.
    expect(stage === undefined ? 0 : firstAgitation(stage)).toBeCloseTo((stage?.time ?? 0) - 10, 9);
  });

  test("also where its bottle will have done more film", () => {
    const shared = [
      "bottle developer 1 litre mixed today",
      "tank alder is rotary",
      "start developer one roll of 120 tank alder",
      "alder wait",
      "Acorn has done 2 rolls",
    ] as const;
    const { stage } = talk(cellar, ...shared);
    expect(stage?.time).toBeCloseTo(480 * 1.2, 6);
    expect(stage?.agitation).toMatchObject({ initial: stage?.time });
  });

  test("a tank that is turned over keeps its cadence when its time moves", () => {
    const by = ["use sheet demo", "tank alder is turned over by hand"] as const;
    const { stage } = talk(
      undefined,
      "set degrees C",
      ...by,
      ...rotary.slice(1),
      60,
      "temperature 37.4",
      "adjust a little",
    );
    expect(stage?.time).toBeGreaterThan(205);
    expect(stage?.agitation).toMatchObject({ initial: 20, every: 40, each: 8 });
  });
});
