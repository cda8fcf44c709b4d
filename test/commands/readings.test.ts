import { describe, expect, test } from "vitest";
import type { Sheet } from "../../src/domain/process/sheet.ts";
import { celsius, celsiusDifference, later, seconds } from "../../src/domain/units/quantity.ts";
import { attic, cellar, noon, talk, wet } from "../support/talk.ts";

const origin = { kind: "invented" } as const;

/** Invented: the cellar's sheet with a bleach-fix behind the developer. */
const pier: Sheet = {
  ...cellar,
  id: "pier",
  name: "pier",
  baths: [
    {
      name: "blix",
      kind: "blix",
      sense: "at least",
      time: { value: seconds(400), origin },
      temperature: { value: celsius(38), origin },
      tolerance: { value: celsiusDifference(2.5), origin },
    },
    {
      name: "fixer",
      kind: "fixer",
      sense: "at least",
      time: { value: seconds(400), origin },
      temperature: { value: celsius(38), origin },
      tolerance: { value: celsiusDifference(2.5), origin },
    },
  ],
};

describe("a bath far outside its band is not called forgiving", () => {
  const blix = ["start blix", 1, "ready", 9, "in", 30] as const;

  test("cold blix: warm it, silver may stay (TG2044, p. 30, read), the sheet decides", () => {
    const { reply } = talk(pier, ...blix, "temperature 29.3");
    const text = reply.lines.join(" ");
    expect(text).not.toContain("forgiving");
    expect(text).toContain("Well outside its band: warm it");
    expect(text).toContain("may leave silver in the film");
    expect(text).toContain("TG2044, p. 30");
    expect(text).toContain("Your sheet decides");
    expect(reply.say).toBe("29.3, well outside its band. Warm it.");
  });

  test("warm blix is to cool, and the sheet says how warm it may be", () => {
    const text = talk(pier, ...blix, "temperature 46").reply.lines.join(" ");
    expect(text).toContain("let it cool");
    expect(text).not.toContain("silver");
  });

  test("a little outside it is still forgiving", () => {
    expect(talk(pier, ...blix, "temperature 35").reply.lines.join(" ")).toContain("forgiving");
  });

  test("another bath is to be warmed as well, without a word of silver", () => {
    const { reply } = talk(pier, "start fixer", 1, "ready", 9, "in", 30, "temperature 25");
    expect(reply.lines.join(" ")).toMatch(/warm it.*works slower; your sheet says by how much/);
    expect(reply.lines.join(" ")).not.toContain("silver");
  });
});

describe("a reading that was a slip is struck", () => {
  const slip = [...wet, 60, "temperature 20.3", 20, "temperature 29.4", "yes"] as const;

  test("while it stands nothing is worked out, and it says how to strike it", () => {
    const { reply, values } = talk(cellar, ...slip);
    expect(values.drift).toBe("outside");
    expect(reply.lines.join(" ")).toContain("Say strike that reading");
    expect(talk(cellar, ...slip, 20, "temperature 19", "yes").values.drift).toBe("outside");
    const beside = talk(cellar, ...slip, 20, "temperature 19").reply;
    expect(beside.lines).toEqual(["If 29.4 was the slip, say strike 29.4."]);
  });

  test.each(["strike that reading", "the last reading was wrong", "strike 29.4", "undo"])(
    "%s: compensation works again",
    (sentence) => {
      const { run, stage } = talk(cellar, ...slip, sentence);
      expect(run?.readings.map(({ temperature }) => temperature)).toEqual([20.3]);
      expect(stage?.time).toBeLessThan(480);
      const { values } = talk(cellar, ...slip, sentence, 20, "temperature 19");
      expect(values.drift).toBe("replan");
    },
  );

  test("it is found as it was shown, as it was corrected, and in either scale", () => {
    const check = "the red thermometer reads 20.4 where the reference reads 20";
    const lines = [check, ...wet, 60, "temperature 20.6 on the red thermometer"] as const;
    for (const said of ["strike 20.6", "strike 20.2", "strike 68.4", "strike 69.1 F"]) {
      expect(talk(cellar, ...lines, "set degrees F", said).run?.readings, said).toEqual([]);
    }
  });

  test("a struck reading calls its pour-out back, and stands in the record", () => {
    const moved = [...wet, 60, "temperature 19"] as const;
    expect(talk(cellar, ...moved).stage?.time).toBeGreaterThan(500);
    const { reply, stage, run, values } = talk(cellar, ...moved, 10, "strike that reading");
    expect(stage?.time).toBe(480);
    expect(reply.title).toMatch(/is struck: pour out .* earlier, 8:00 in all\.$/);
    expect(values).toMatchObject({ struck_c: 19, drift: "replan" });
    expect(run?.notes.map(({ text }) => text).join(" ")).toContain("struck a reading");
  });

  test("what was decided about it is open again", () => {
    const { reply } = talk(
      attic,
      ...wet,
      60,
      "temperature 17",
      "yes",
      "keep",
      "strike that reading",
      20,
      "temperature 19",
    );
    expect(reply.kind).toBe("question");
  });

  test.each([
    ["strike that reading", [], "no-reading"],
    ["strike that reading", [...wet], "no-reading"],
    ["strike 25", [...wet, 60, "temperature 20"], "no-such-reading"],
  ] as const)("%s has nothing to strike: refused, nothing changed", (sentence, before, reason) => {
    const { reply, run } = talk(cellar, ...before, sentence);
    expect(reply.facts.reason).toBe(reason);
    expect(run?.readings ?? []).toEqual(talk(cellar, ...before, "left").run?.readings ?? []);
  });
});

describe("an offset found while film is in the bath", () => {
  const read = [...wet, 60, "temperature 20.1 on the red thermometer"] as const;

  test.each([
    "the red thermometer reads 20.6 where the reference reads 20.0",
    "the red one reads 0.6 high at 20",
  ])("%s: the pour-out moves, once, and is logged", (sentence) => {
    expect(talk(cellar, ...read).stage?.time).toBe(480);
    const { reply, stage, run, values } = talk(cellar, ...read, 20, sentence);
    expect(run?.readings[0]).toMatchObject({ read: 20.1, thermometer: "red" });
    expect(run?.readings[0]?.temperature).toBeCloseTo(19.5, 9);
    expect(run?.readings[0]?.unverified).toBeUndefined();
    expect(values.drift).toBe("replan");
    // The cellar's table, straight in the logarithm: 580 s at 18 °C, 480 s at 20 °C, constant bath.
    expect(stage?.time).toBeCloseTo(480 * (580 / 480) ** 0.25, 2);
    expect(reply.title).toMatch(/read anew, 19.5 °C: pour out .* later/);
    expect(run?.notes.filter(({ text }) => text.startsWith("drift"))).toHaveLength(1);
  });

  test("where the sheet does not allow a change it asks, as a reading does", () => {
    const { reply, stage } = talk(attic, ...read, 20, "the red one reads 0.6 high at 20");
    expect(reply.kind).toBe("question");
    expect(reply.ask?.options?.map(({ word }) => word)).toContain("log as fault");
    expect(stage?.time).toBe(480);
    expect(
      talk(attic, ...read, 20, "the red one reads 0.6 high at 20", "keep").run?.notes.at(-1)?.text,
    ).toContain("kept the time");
  });

  test("readings of other thermometers, and ones that were covered before, stay", () => {
    const { stage, run } = talk(
      cellar,
      ...wet,
      60,
      "temperature 20.1 on the glass thermometer",
      "the red one reads 0.6 high at 20",
    );
    expect(stage?.time).toBe(480);
    expect(run?.readings[0]?.temperature).toBe(20.1);
  });

  test("a reading that named no thermometer is nobody's: it stays, and that is said", () => {
    const lines = [...wet, 60, "temperature 20.1", "the red one reads 0.6 high at 20"] as const;
    const { run, reply, stage } = talk(cellar, ...lines);
    expect(run?.readings[0]?.temperature).toBe(20.1);
    expect(stage?.time).toBe(480);
    expect(reply.lines.join(" ")).toContain("1 reading of open runs named no thermometer");
  });

  test("the temperature of the check is asked for where it was left out", () => {
    const asked = talk(cellar, ...read, "the red thermometer is 0.5 low");
    expect(asked.reply.kind).toBe("question");
    const { values } = talk(cellar, ...read, "the red thermometer is 0.5 low", "20");
    expect(values).toMatchObject({ read_c: 19.5, reference_c: 20, offset_c: -0.5 });
  });
});

describe("a thermometer that was not named", () => {
  const check = (name: string) => `the ${name} thermometer reads 20.4 where the reference reads 20`;

  test("of several is not guessed: the reading is unverified, in the reply, log and summary", () => {
    const lines = [check("red"), check("round"), ...wet, 60, "temperature 20.1"] as const;
    const { reply, run, values } = talk(cellar, ...lines);
    expect(values.verified).toBe(false);
    expect(reply.lines.join(" ")).toContain("Unverified: the thermometer was not named");
    expect(run?.readings[0]).toMatchObject({ temperature: 20.1 });
    expect(run?.readings[0]?.unverified).toContain("not named");
    expect(talk(cellar, ...lines, "summary").reply.lines.join(" ")).toContain("not named");
  });

  test("the only one is taken, and it says so", () => {
    const { reply, values } = talk(cellar, check("red"), ...wet, 60, "temperature 20.4");
    expect(values).toMatchObject({ verified: true, thermometer: "red" });
    expect(reply.lines.join(" ")).toContain("the red thermometer, the only one I know");
  });

  test("one that was never checked is said to be so", () => {
    const { reply, run } = talk(cellar, ...wet, 60, "temperature 20 on the round thermometer");
    expect(reply.lines.join(" ")).toContain("never held against the reference");
    expect(run?.readings[0]).toMatchObject({ thermometer: "round", temperature: 20 });
  });
});

describe("the size of an error, and one question for each departure", () => {
  const late = [...wet, 475, "left"] as const;

  test("said while it is being poured out: the size is told, nothing moves", () => {
    const { reply, stage, values } = talk(cellar, ...late, "developer was at 19 one minute ago");
    expect(stage?.time).toBe(480);
    expect(reply.lines.join(" ")).toMatch(/Kept to the plan it is .* too little/);
    expect(values.drift).toBe("state");
    expect(values.error_from_s).toBeLessThan(-30);
    expect(reply.ask?.options?.map(({ word }) => word)).toEqual(["keep", "log as fault"]);
  });

  test("said a moment after the clock ended the run: the size is told, and the choice is kept", () => {
    const lines = [...wet, 475, "out", "yes", 40, "developer was at 19 two minutes ago"] as const;
    const { reply, values, run } = talk(cellar, ...lines);
    expect(run?.endedAt).toBeDefined();
    expect(values).toMatchObject({ drift: "state", within: false });
    expect(reply.ask?.options?.map(({ word }) => word)).toEqual(["keep", "log as fault"]);
    const logged = talk(cellar, ...lines, "log as fault").run;
    expect(logged?.notes.at(-1)?.text).toContain("fault, developer off its temperature");
    // Of now, it is no reading of that run any more.
    expect(talk(cellar, ...lines.slice(0, -1), "temperature 19").values.reason).toBe(
      "nothing-running",
    );
  });

  test.each(["keep", "adjust a little", "log as fault"])(
    "%s answers the departure, not one reading of it",
    (choice) => {
      const answered = [...wet, 60, "temperature 19.2", choice] as const;
      for (const next of ["temperature 19.2", "temperature 19.1", "temperature 18.95"]) {
        expect(talk(attic, ...answered, 30, next).reply.kind, next).toBe("reply");
      }
    },
  );

  test.each([
    ["clearly further off", ["temperature 18.2"]],
    ["on the other side", [240, "temperature 21"]],
    ["after it was back in its band", ["temperature 20", 120, "temperature 19.2"]],
  ])("%s it is another departure", (_, lines) => {
    const answered = [...wet, 60, "temperature 19.2", "keep", 60] as const;
    expect(talk(attic, ...answered, ...lines).reply.kind).toBe("question");
  });
});

describe("why a drift was decided so", () => {
  test("the readings, their rates, the law and its origin", () => {
    const why = talk(cellar, ...wet, 60, "temperature 19", "why").reply.lines.join("\n");
    expect(why).toContain("Law: times 18 °C 9:40, 20 °C 8:00, 24 °C 5:30");
    expect(why).toContain("invented");
    // The table's own rate at 19 °C, straight in the logarithm: (480 / 580) ** 0.5 = 0.91.
    expect(why).toContain("12:01:11  19 °C: rate 0.91");
    expect(why).toContain("Meant: 8:00 of development at 20 °C");
  });

  test.each(["why", "keep"])("without a law the ends of the published spread (%s)", (next) => {
    const why = talk(attic, ...wet, 60, "temperature 19", next, "why").reply.lines.join("\n");
    expect(why).toContain("1.4 to 2.9");
    // 2.9 ** -0.1 and 1.4 ** -0.1.
    expect(why).toContain("19 °C: rate 0.967 to 0.899");
  });

  test("both values of a corrected reading", () => {
    const check = "the red thermometer reads 20.4 where the reference reads 20";
    const lines = [check, ...wet, 60, "temperature 19.4 on the red thermometer", "why"] as const;
    expect(talk(cellar, ...lines).reply.lines.join("\n")).toContain("19 °C (shown 19.4 on red)");
    expect(talk(cellar, ...lines).run?.readings[0]?.at).toBe(later(noon, 71));
  });
});

test("a bath that was at its aim all the time is just what was meant, not 0 s too little", () => {
  const why = talk(attic, ...wet, 30, "temperature 20", "why").reply.lines.join("\n");
  expect(why).toContain("just the development that was meant");
  expect(why).not.toContain("too little");
});
