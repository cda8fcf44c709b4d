import { describe, expect, test } from "vitest";
import { benchSchema } from "../../src/domain/session/bench.ts";
import { later } from "../../src/domain/units/quantity.ts";
import { attic, cellar, noon, talk, wet } from "../support/talk.ts";

describe("time from temperature", () => {
  test.each([
    ["at 20", 480],
    ["at 18", 580],
    ["at 24", 330],
    // Straight in the logarithm: the geometric mean of its neighbours.
    ["at 19", Math.sqrt(580 * 480)],
  ])("start developer %s takes the table's time", (words, time) => {
    const { stage } = talk(cellar, `start developer ${words}`);
    expect(stage?.time).toBeCloseTo(time, 2);
    expect(talk(cellar, `how long ${words}`).values.time_s).toBeCloseTo(time, 2);
  });

  test.each(["start developer at 25", "how long at 25", "how long at 17.9"])(
    "%j is outside the table: refused, nothing changed",
    (sentence) => {
      const { reply, bench } = talk(cellar, sentence);
      expect(reply.facts.reason).toBe("outside-law");
      expect(bench.runs).toEqual({});
    },
  );

  test("no law: a range and the word estimate, and never a time taken silently", () => {
    const asked = talk(attic, "start developer at 22");
    expect(asked.reply.kind).toBe("question");
    expect(asked.reply.title).toContain("Estimate");
    expect(asked.bench.runs).toEqual({});
    expect(asked.values.estimate_from_s).toBeCloseTo(480 / 2.9 ** 0.2, 2);
    expect(asked.values.estimate_to_s).toBeCloseTo(480 / 1.4 ** 0.2, 2);
    const kept = talk(attic, "start developer at 22", "keep").stage;
    expect(kept).toMatchObject({ time: 480, temperature: 20 });
    const middle = talk(attic, "start developer at 22", "middle").stage;
    expect(middle?.time).toBeCloseTo((480 / 2.9 ** 0.2 + 480 / 1.4 ** 0.2) / 2, 2);
    expect(middle).toMatchObject({ temperature: 22, corrections: [{ kind: "temperature" }] });
    expect(talk(attic, "how long at 22").reply.title).toContain("estimate");
  });

  test("push comes before temperature, and why shows the order", () => {
    const { stage } = talk(cellar, "start developer pushed one stop at 22");
    expect(stage?.corrections?.map(({ kind }) => kind)).toEqual(["push", "temperature"]);
    expect(stage?.time).toBeCloseTo(480 * 1.5 * Math.sqrt(330 / 480), 2);
    const why = talk(cellar, "start developer pushed one stop at 22", "why").reply.lines.join("\n");
    expect(why).toMatch(/push: .*\n.*temperature: /);
  });

  test("beyond half or double, all together are refused", () => {
    const { reply, bench } = talk(cellar, "start developer pushed two stops at 19");
    expect(reply.facts.reason).toBe("beyond-limits");
    expect(bench.runs).toEqual({});
  });

  test.each([
    ["start fixer at 15", 300 * Math.SQRT2],
    ["start fixer at 10", 600],
    ["start fixer at 20", 300],
  ])("%s, by the cold rule of TM 11-2323, para. c (read)", (sentence, time) => {
    expect(talk(cellar, sentence).stage?.time).toBeCloseTo(time, 2);
  });

  test("a wash whose time is not on the sheet still grows by the rule's factor", () => {
    const { values } = talk(undefined, "use sheet black and white", "how long for the wash at 15");
    expect(values.factor).toBeCloseTo(Math.SQRT2, 9);
  });

  test("where the cold rule ends it says so, also for a wash without a time of its own", () => {
    const { reply } = talk(undefined, "use sheet black and white", "how long for the wash at 8");
    expect(reply.facts.reason).toBe("too-cold");
    expect(reply.title).toContain("ends at 10 °C");
  });

  test("a black-and-white developer without a time is told of the published tables", () => {
    for (const said of ["how long is the developer", "how long for the developer at 22"]) {
      const { reply } = talk(undefined, "use sheet black and white", said);
      expect(reply.lines.join(" ")).toContain("published times");
    }
  });

  test("a jump from bath to bath beyond the bench's limit is warned of in the plan", () => {
    const plan = talk(cellar, "start cellar").reply.cautions.join(" ");
    expect(plan).toContain("is a jump of 4 °C");
    const after = talk(cellar, "set jump limit 5", "start cellar").reply.cautions.join(" ");
    expect(after).not.toContain("jump");
  });
});

describe("drift in the bath", () => {
  test("the sheet allows it: the pour-out moves, once, and stands in the record", () => {
    const { reply, stage, run, values } = talk(cellar, ...wet, 60, "temperature 19");
    expect(reply.kind).toBe("reply");
    expect(values.drift).toBe("replan");
    expect(stage?.timeMeant).toBe(480);
    expect(stage?.time).toBeGreaterThan(500);
    expect(run?.notes.at(-1)?.text).toContain("drift");
  });

  test("a late reading takes its place; one from before the pour is refused and changes nothing", () => {
    const late = talk(cellar, ...wet, 120, "it was 19 a minute ago");
    expect(late.run?.readings[0]?.at).toBe(later(noon, 11 + 60));
    expect(late.values.drift).toBe("replan");
    const early = talk(cellar, ...wet, 30, "it was 19 a minute ago");
    expect(early.stage?.time).toBe(480);
    expect(early.values.reason).toBe("before-pour");
    expect(early.run?.readings).toHaveLength(0);
  });

  test("while nothing is poured a bare one is asked about; with the name of the bath it is the bath's", () => {
    const planned = ["start developer one roll of 120 tank north", 1] as const;
    const asked = talk(cellar, ...planned, "temperature 20");
    expect(asked.reply.kind).toBe("question");
    expect(asked.reply.title).toContain("Nothing is in North yet");
    expect(asked.run?.readings).toHaveLength(0);
    expect(talk(cellar, ...planned, "temperature 20", "no").run?.readings).toHaveLength(0);
    expect(talk(cellar, ...planned, "temperature 20", "yes").run?.readings).toHaveLength(1);
    expect(talk(cellar, ...planned, "developer is at 20").run?.readings).toHaveLength(1);
    const pouring = talk(cellar, ...planned, "ready", 3, "temperature 20");
    expect(pouring.run?.readings).toHaveLength(1);
  });

  test("a slip is asked about also where it takes the place of a reading of the same moment", () => {
    const slip = talk(cellar, ...wet, 60, "temperature 20", "temperature 23");
    expect(slip.reply.title).toMatch(/^23\? /);
    expect(slip.run?.readings).toHaveLength(1);
    const put = talk(cellar, ...wet, 60, "temperature 20", "temperature 19.8");
    expect(put.run?.readings).toHaveLength(2);
  });

  test("a slip is said back with every digit", () => {
    const { reply } = talk(cellar, ...wet, 60, "temperature 2.05 C");
    expect(reply.title).toMatch(/^2\.05\? 2\.05 °C is 17\.95 °C from the aim/);
  });

  test("an implausible one is questioned first; no changes nothing, yes takes it", () => {
    const lines = [...wet, 60, "temperature 20", 10, "temperature 23.4"] as const;
    const asked = talk(cellar, ...lines);
    expect(asked.reply.title).toMatch(/^23.4\? /);
    expect(asked.run?.readings).toHaveLength(1);
    expect(talk(cellar, ...lines, "no").run?.readings).toHaveLength(1);
    const yes = talk(cellar, ...lines, 5, "yes");
    expect(yes.run?.readings.map(({ at }) => at)).toEqual([later(noon, 71), later(noon, 81)]);
    expect(yes.values.drift).toBe("replan");
  });

  test.each([
    ["keep", 480, "kept the time"],
    ["log as fault", 480, "fault"],
    ["adjust a little", undefined, "adjusted"],
    ["keep it", 480, "kept the time"],
    ["keep the time", 480, "kept the time"],
    ["adjust it please", undefined, "adjusted"],
    ["log it", 480, "fault"],
  ])("not known or not allowed, answered with %s", (choice, time, note) => {
    const { stage, run } = talk(attic, ...wet, 60, "temperature 19", choice);
    if (time !== undefined) expect(stage?.time).toBe(time);
    else expect(stage?.time).toBeGreaterThan(481);
    expect(stage?.time).toBeLessThanOrEqual(480 * 1.1);
    expect(run?.notes.at(-1)?.text).toContain(note);
  });

  test("log as fault, with the question long gone, is no note of any run", () => {
    const late = talk(attic, ...wet, 60, "temperature 19", 121, "log as fault");
    expect(late.reply.facts.reason).toBe("nothing-open");
    expect(late.run?.notes.map(({ text }) => text)).not.toContain("as fault");
    expect(talk(attic, ...wet, "log it").reply.kind).toBe("question");
  });

  test("what was answered is not asked about again", () => {
    const again = talk(attic, ...wet, 60, "temperature 19.5", "keep", 60, "temperature 19.4");
    expect(again.reply.kind).toBe("reply");
    expect(again.values.drift).toBe("state");
  });

  test.each([
    ["temperature 100 C", "question"],
    ["temperature 90 C", "question"],
    ["temperature -3 C", "refusal"],
    ["temperature -40 C", "refusal"],
    ["temperature 300 C", "refusal"],
    ["stop bath is at 20", "refusal"],
    ["it was 19 9 hours ago", "refusal"],
  ])("%j is a %s, and nothing is changed", (sentence, kind) => {
    const before = talk(cellar, ...wet, 60, "left").bench;
    const { reply, bench } = talk(cellar, ...wet, 60, sentence);
    expect(reply.kind, reply.title).toBe(kind);
    expect(bench).toEqual(before);
  });

  test("100 on a °C bench is 37.8 °C only when the question is answered", () => {
    const asked = talk(undefined, "start developer", 1, "ready", 9, "in", 20, "temperature 100 C");
    expect(asked.reply.title).toContain("100 °F");
    const { run } = talk(
      undefined,
      "start developer",
      1,
      "ready",
      9,
      "in",
      20,
      "temperature 100 C",
      "yes",
    );
    expect(run?.readings[0]?.temperature).toBeCloseTo(37.78, 2);
  });
});

describe("thermometers", () => {
  const checked = "the red thermometer reads 20.4 where the reference reads 20.0";

  test("every reading is corrected and keeps both values", () => {
    const { run, values } = talk(
      cellar,
      checked,
      ...wet,
      60,
      "temperature 20.4 on the red thermometer",
    );
    expect(run?.readings[0]).toMatchObject({ read: 20.4, thermometer: "red" });
    expect(run?.readings[0]?.temperature).toBeCloseTo(20, 9);
    expect(values).toMatchObject({ read_c: 20.4, verified: true, drift: "nothing" });
  });

  test("one far from where it was checked is marked, in the log and the summary", () => {
    const hot = "the red thermometer reads 40.4 where the reference reads 40.0";
    const lines = [hot, ...wet, 60, "temperature 20 on the red thermometer"] as const;
    const { run, values } = talk(cellar, ...lines);
    expect(values.verified).toBe(false);
    expect(run?.readings[0]?.unverified).toContain("Unverified");
    expect(talk(cellar, ...lines, "summary").reply.lines.join(" ")).toContain("unverified");
  });

  test("an offset found later reads past runs anew, and a suspicion goes with it", () => {
    const lines = [
      ...wet,
      60,
      "temperature 20.1 on the red thermometer",
      600,
      "out",
      "the red thermometer was off",
      checked,
    ] as const;
    const { values, bench, reply } = talk(cellar, ...lines);
    expect(values.runs).toEqual([
      expect.objectContaining({ tank: "Tank", bath: "developer", read_c: 20.1 }),
    ]);
    expect(reply.lines.join(" ")).toContain("Read anew, 1 run was out");
    expect(bench.suspects).toEqual([]);
    expect(talk(cellar, ...lines, "undo").bench.thermometers).toEqual({});
  });

  test("the daily message asks for the check again, by each one's own day", () => {
    const { bench } = talk(cellar, checked);
    expect(bench.dailyLook.next).toBeGreaterThan(later(noon, 179 * 86_400));
    expect(bench.dailyLook.next).toBeLessThan(later(noon, 182 * 86_400));
  });

  test.each([
    ["the red thermometer reads 48 where the reference reads 38", "offset-too-large"],
    ["the red thermometer reads 138 where the reference reads 137", "impossible-temperature"],
    ["forget the blue thermometer", "no-such-thermometer"],
    ["the red one reads 38 where the blue one reads 38", "not-the-reference"],
  ])("%j is refused as %s", (sentence, reason) => {
    const { reply, bench } = talk(cellar, sentence);
    expect(reply.facts.reason, reply.title).toBe(reason);
    expect(bench.thermometers).toEqual({});
  });

  test("a bench kept before there were thermometers still loads", () => {
    const { bench } = talk(cellar, "left");
    const { thermometers: _, tankHeat: __, ...older } = bench;
    expect(benchSchema.parse(JSON.parse(JSON.stringify(older)))).toEqual(bench);
  });
});

describe("heat", () => {
  const learnt = "developer was 38 before and 36 after the pour, tank was 20, 400 ml in tank north";

  test("a tank's heat from two readings: 400 × 2 / 16 = 50 mL (heat balance)", () => {
    const { values, bench } = talk(undefined, learnt);
    expect(values.takes_ml).toBeCloseTo(50, 9);
    expect(bench.tankHeat.north?.takes).toBeCloseTo(50, 9);
    const drop = talk(undefined, learnt, "tank drop: developer 38, tank 20, 400 ml in tank north");
    expect(drop.values).toMatchObject({ known: true });
    expect(drop.values.lands_c).toBeCloseTo(36, 9);
  });

  test.each([[learnt], ["tank north has two 35 mm reels of 300 ml each", learnt]])(
    "a tank that is forgotten takes its heat along, and undo brings both back",
    (...lines) => {
      const { bench, reply } = talk(undefined, ...lines, "forget tank north");
      expect(reply.title).toContain("and the heat it takes");
      expect([bench.tankHeat, bench.tanks]).toEqual([{}, {}]);
      expect(talk(undefined, ...lines, "forget tank north", "undo").bench.tankHeat).toHaveProperty(
        "north",
      );
    },
  );

  test("a tank that was never measured gives a range and says that it is assumed", () => {
    const { values, reply } = talk(undefined, "tank drop: developer 38, tank 20, 500 ml");
    expect(values.known).toBe(false);
    expect(values.lands_from_c).toBeCloseTo((500 * 38 + 70 * 20) / 570, 3);
    expect(values.lands_to_c).toBeCloseTo((500 * 38 + 30 * 20) / 530, 3);
    expect(reply.title).toContain("estimate");
  });

  test("how warm the developer must be: 38 + 18 × 50 / 400 (heat balance)", () => {
    const sentence =
      "how warm must the developer be for 38 with the tank at 20 with 400 ml in tank north";
    expect(talk(undefined, learnt, sentence).values.developer_c).toBeCloseTo(
      38 + (18 * 50) / 400,
      9,
    );
  });

  test("forecast: 60 ln(26/18) / (ln(28/26) / 10) s (Newton's law)", () => {
    const { values } = talk(undefined, "bath 46, ten minutes ago 48, room 20: when is it 38");
    expect(values.wait_s).toBeCloseTo((60 * Math.log(26 / 18)) / (Math.log(28 / 26) / 10), 3);
  });

  test("forecast within a band that was said, and its working", () => {
    const ask = "bath was 46 ten minutes ago and is 44 now, room 20, when is it 38";
    const wide = talk(undefined, "set degrees C", `${ask} plus or minus 1`).values;
    // Newton: from 39 to 37 °C the difference to a room at 20 °C falls from 19 to 17.
    expect(wide.tolerance_c).toBe(1);
    expect(wide.lasts_s).toBeCloseTo((60 * Math.log(19 / 17)) / (Math.log(26 / 24) / 10), 3);
    const why = talk(undefined, "set degrees C", ask, "why").reply.lines.join(" ");
    expect(why).toContain("from 26 to 24 °C in 10:00");
  });

  test("why shows the heat balance, and whose aim it is", () => {
    const lines = ["use the demo", "tank drop: developer 39, tank 21, 500 ml", "why"] as const;
    const why = talk(undefined, ...lines).reply.lines.join(" ");
    expect(why).toContain("(500 mL × 39 + 50 mL × 21) / 550 mL = 37.36 °C");
    expect(why).toContain("Aim 38.2 °C: invented");
  });

  test.each([
    ["tank north takes as much as 0 ml of water", "tank-takes-nothing"],
    [
      "developer was 38 before and 39 after the pour, tank was 20, 400 ml in tank north",
      "against-heat",
    ],
    [
      "developer was 22 before and 21 after the pour, tank was 20, 400 ml in tank north",
      "too-close",
    ],
    ["tank drop: developer 38, tank -20, 500 ml", "impossible-temperature"],
    ["bath 46, ten minutes ago 48, room 50: when is it 38", "away-from-room"],
    ["bath 46, ten minutes ago 48, room 20: when is it 15", "never"],
    ["bath 46, ten minutes ago 46, room 20: when is it 38", "not-moving"],
  ])("%j is refused as %s, and nothing is kept", (sentence, reason) => {
    const { reply, bench } = talk(undefined, sentence);
    expect(reply.facts.reason, reply.title).toBe(reason);
    expect(bench.tankHeat).toEqual({});
  });

  test("trim by a difference: warmer with warm water, colder with cold", () => {
    const by = ["set degrees C", "trim the bath by half a degree", "5 litres", "37.5"] as const;
    expect(talk(undefined, ...by, "60").values).toMatchObject({ temp_c: 38, by_c: 0.5 });
    expect(talk(undefined, ...by, "15").values).toMatchObject({ temp_c: 37, by_c: -0.5 });
  });
});

test("where only one push rule is known it is not called several, and yes takes it", () => {
  const lines = ["use sheet reversal six bath", "how long for first developer pushed one stop"];
  const asked = talk(undefined, ...lines);
  expect(asked.reply.title).toContain("I know one for push 1");
  expect(asked.reply.lines.join(" ")).not.toContain("disagree");
  // 6:00 and 2:00 more: Z-119, older small-tank guide (from memory).
  expect(talk(undefined, ...lines, "yes").values.time_s).toBe(480);
  expect(talk(undefined, ...lines, "no").reply.title).toBe("Left as it was.");
});

describe("published times", () => {
  test.each([
    ["d76", "rotary-d76-fine"],
    ["D-76", "rotary-d76-fine"],
    ["ascorbate developer 1+1 120", "rotary-ascorbate-2-120-fast"],
    ["ascorbate 1+1 135", "rotary-ascorbate-2-135-fast"],
    ["replenished", "rotary-replenished-fine"],
  ])("times for %s is one table", (said, table) => {
    expect(talk(undefined, `times for ${said}`).values.table).toBe(table);
  });

  const chosen = ["times for D-76", "yes", "use sheet black and white"] as const;

  test.each([
    ["at 20", 390],
    ["at 22", 330],
    ["at 24", 300],
  ])("D-76 %s, rotary: F-32, rotary-tube table (read)", (words, time) => {
    const { values, reply } = talk(undefined, ...chosen, `how long ${words}`);
    expect(values.time_s).toBeCloseTo(time, 6);
    expect(reply.cautions.join(" ")).toContain("rotary");
  });

  test("nothing is a default: without a choice the time is asked for", () => {
    expect(talk(undefined, "use sheet black and white", "start developer").reply.kind).toBe(
      "question",
    );
    expect(talk(undefined, ...chosen, "start developer").stage?.time).toBe(390);
    const let_go = talk(undefined, ...chosen, "forget the chosen times", "start developer");
    expect(let_go.reply.kind).toBe("question");
  });

  test("one from memory is shown and not offered", () => {
    const { reply } = talk(undefined, "times for colour-negative developer");
    expect(reply.kind).toBe("reply");
    expect(reply.cautions.join(" ")).toContain("From memory");
  });
});
