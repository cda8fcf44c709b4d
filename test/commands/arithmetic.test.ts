import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { US_BASIS } from "../../src/domain/mixing/us-formula.ts";
import { originsOf } from "../../src/reply/reply.ts";
import { type Heard, hear } from "../support/hear.ts";

const commands = await loadCommands();
const ours = [
  "area",
  "blend",
  "convert",
  "dilute",
  "dissolve",
  "enough",
  "formula",
  "formulas",
  "strength",
  "swap",
  "trim",
  "water",
];
const us = { country: "us" } as const;
const demo = { sheetInUse: "demo" };
const US_OZ = 29.5735295625;
const QUART = 946.352946;

/** Keys the conversation adds to a refusal or question by itself. */
const common = ["reason", "field", "read", "heard"];

/** What must hold for every answer: one breath, and no key that is not written down. */
function wellFormed({ reply, values, by }: Heard): void {
  expect(reply.say.split(/\s+/).length, reply.say).toBeLessThanOrEqual(12);
  expect(reply.say).not.toBe("");
  expect(ours).toContain(by);
  const documented = commands.find(({ name }) => name === by)?.values ?? {};
  for (const key of Object.keys(values)) {
    expect([...Object.keys(documented), ...(reply.kind === "reply" ? [] : common)]).toContain(key);
  }
  for (const key of Object.keys(originsOf(reply))) expect(values).toHaveProperty(key);
}

type Row = {
  readonly say: string | readonly string[];
  readonly by: string;
  readonly values: Readonly<Record<string, unknown>>;
  readonly habits?: Parameters<typeof hear>[2];
  /** Largest difference of a number from what is expected. */
  readonly within?: number;
  readonly source?: string;
};

function check({ say, by, values: expected, habits, within = 1e-6 }: Row): Heard {
  const heard = hear(commands, say, habits);
  expect([heard.reply.kind, heard.by], heard.reply.title).toEqual(["reply", by]);
  wellFormed(heard);
  expect(heard.reply.working.length).toBeGreaterThan(0);
  for (const [key, value] of Object.entries(expected)) {
    const got = heard.values[key];
    if (typeof value !== "number") expect(got, key).toEqual(value);
    else
      expect(Math.abs(Number(got) - value), `${key}: ${String(got)}`).toBeLessThanOrEqual(within);
  }
  return heard;
}

const F32 = "1:N as 1+N: F-32, developer rows (from memory)";
const J24 = "J-24, chained dilutions (from memory)";

describe("dilute", () => {
  const tenth = { total_ml: 500, concentrate_ml: 50, water_ml: 450, water_parts: 9 };
  test.each<Omit<Row, "by">>([
    { say: "dilute 500 ml 1+9", values: tenth },
    { say: "500 ml at 1+9", values: tenth },
    { say: "five hundred ml one plus nine", values: tenth },
    { say: "1+9 for 500 ml", values: tenth },
    { say: "make me 500 ml of 1+9, please", values: tenth },
    { say: "dilute half a litre to one part to nine parts of water", values: tenth },
    { say: "500ml of fixer at 1+9", values: { ...tenth, bath: "fixer" } },
    { say: "dilute the fixer 1+9 to 500 ml", values: { ...tenth, bath: "fixer" } },
    { say: "dilute 50 ml of concentrate 1+9", values: tenth },
    { say: "how far does 50 ml of concentrate go at 1+9", values: tenth },
    { say: "how much can i make from 50 ml of concentrate at one plus nine", values: tenth },
    { say: ["dilute", "500 ml", "1+9"], values: tenth },
    { say: ["dilute 1+9", "500 ml"], values: tenth },
    { say: "make 1 litre of 1+4", values: { concentrate_ml: 200, water_ml: 800 } },
    { say: "500 ml undiluted", values: { concentrate_ml: 500, water_ml: 0, water_parts: 0 } },
    {
      say: "how much concentrate for 600 ml one to nine",
      values: {
        concentrate_ml: 60,
        water_ml: 540,
        in_n: { concentrate_ml: 66.6666666667, water_ml: 533.333333333, total_ml: 600 },
      },
      source: F32,
    },
    {
      say: "256 us fl oz at 1:3",
      values: { concentrate_ml: 64 * US_OZ, water_ml: 192 * US_OZ },
      source: "two US gallons at 1:3, own arithmetic on F-32's notation (derived)",
    },
    {
      say: ["dilute a quart 1:3", "us"],
      values: { total_ml: QUART, concentrate_ml: QUART / 4 },
      source: "common practice, no source",
    },
    {
      say: "dilute 1 litre 1+3 then 1+7",
      values: { water_parts: 31, concentrate_ml: 1000 / 32 },
      source: J24,
    },
    { say: "dilute 1 litre 1+3 then 1+3", values: { water_parts: 15 }, source: J24 },
    { say: "dilute 1 litre 1+3 then 1+11", values: { water_parts: 47 }, source: J24 },
    {
      say: "dilute 32 us ounces of stock at 1+2",
      values: { total_ml: 96 * US_OZ },
      source: "Practical Photography, tank developing, para. 505-506 (read)",
    },
  ])("$say: $source", (row) => {
    check({ ...row, by: "dilute", within: 1e-9 });
  });

  test("a colon is shown both ways, a plus only one", () => {
    const colon = hear(commands, "500 ml at 1:9").reply;
    expect(colon.lines.join("\n")).toContain("1 part in 9 in all (1+8): concentrate 56 mL");
    expect(originsOf(colon).water_parts).toContain("from memory, not read: F-32");
    expect(hear(commands, "500 ml at 1+9").values).not.toHaveProperty("in_n");
  });
});

const SS0513 = "Subcourse SS0513, Photographic Quality Control, p. 22 (read)";
const CB170 = "The Darkroom Cookbook, 3rd ed., p. 170, table, by weight (read)";

describe("strength", () => {
  test.each<Omit<Row, "by">>([
    {
      say: "32 us ounces of 28 % from 99.5 %",
      values: { stock_ml: 9.0 * US_OZ, water_ml: 23.0 * US_OZ, percent_kind: "by volume" },
      within: 0.05 * US_OZ,
      source: SS0513,
    },
    {
      say: "from 28 percent to 2 percent 1 litre",
      values: {
        stock_ml: 2000 / 28,
        water_ml: 1000 - 2000 / 28,
        total_ml: 1000,
        stock_percent: 28,
        target_percent: 2,
      },
    },
    {
      say: "from twenty eight percent to two percent, one litre",
      values: { stock_ml: 2000 / 28, total_ml: 1000 },
    },
    {
      say: "how do I make 500 ml of 5 % from 28 % acid",
      values: { stock_ml: 2500 / 28, substance: "acid" },
    },
    { say: "500 ml of 5 % w/v from 28 %", values: { percent_kind: "w/v", stock_ml: 2500 / 28 } },
    {
      say: "dilute 100 ml of 28 % acetic acid down to 2 %",
      values: { stock_ml: 100, water_ml: 1300, total_ml: 1400, substance: "acetic acid" },
    },
    {
      say: ["bring 28 percent down to five percent", "one litre"],
      values: { stock_ml: 5000 / 28 },
    },
    {
      say: "99.5 g of 28 % w/w from 99.5 % w/w",
      values: { stock_g: 28, water_g: 71.5, percent_kind: "w/w" },
      source: CB170,
    },
    {
      say: "99.5 g of 36 % from 99.5 %",
      values: { stock_g: 36, water_g: 63.5, percent_kind: "w/w" },
      source: CB170,
    },
    { say: "99.5 g of 56 % from 99.5 %", values: { stock_g: 56, water_g: 43.5 }, source: CB170 },
    {
      say: "1 litre of 1.344 % from 28 %",
      values: { stock_ml: 48 },
      source: "SB-1, 48 mL of 28 % in a litre: J-1 (from memory)",
    },
  ])("$say: $source", (row) => {
    check({ ...row, by: "strength" });
  });

  test("acid to water: said where acid was named, with an if where nothing was", () => {
    const cautions = (said: string) => hear(commands, said).reply.cautions.join(" ");
    expect(cautions("500 ml of 5 % from 28 % acetic acid")).toMatch(/^Acid to water/);
    expect(cautions("500 ml of 5 % from 28 %")).toMatch(/^If it is an acid/);
    expect(cautions("500 ml of 5 % from 28 % alcohol")).toBe("");
  });

  test("what was taken for granted about the kind is said", () => {
    const lines = (said: string) => hear(commands, said).reply.lines.join(" ");
    expect(lines("500 ml of 5 % w/v from 28 %")).toContain("taken as w/v too");
    expect(lines("500 ml of 5 % from 28 %")).toContain("worked by volume");
    expect(lines("500 ml of 5 % v/v from 28 % v/v")).not.toContain("taken");
  });
});

describe("blend", () => {
  test.each<Omit<Row, "by">>([
    {
      say: "blend 10 percent and 2 percent to 5 percent 600 ml",
      values: { strong_ml: 225, weak_ml: 375, total_ml: 600, strong_parts: 3, weak_parts: 5 },
    },
    {
      say: "blend ten percent and two percent to five percent, six hundred ml",
      values: { strong_ml: 225, weak_ml: 375 },
    },
    { say: "mix 20 % with 5 % to get 8 %", values: { strong_parts: 3, weak_parts: 12 } },
    {
      say: "mix 5 % with 20 % to get 8 %",
      values: { strong_parts: 3, weak_parts: 12, strong_percent: 20 },
    },
    { say: "600 ml of 5 % from 10 % and 2 %", values: { strong_ml: 225, weak_ml: 375 } },
    {
      say: "blend 99.5 % w/w and 0 % w/w to 28 % w/w",
      values: { strong_parts: 28, weak_parts: 71.5, percent_kind: "w/w" },
      source: CB170,
    },
  ])("$say: $source", (row) => {
    check({ ...row, by: "blend" });
  });

  test("without a total there are parts and no volumes", () => {
    expect(hear(commands, "mix 20 % with 5 % to get 8 %").values).not.toHaveProperty("strong_ml");
  });
});

describe("dissolve", () => {
  test.each<Omit<Row, "by">>([
    {
      say: "10 percent solution 250 ml",
      values: { mass_g: 25, total_ml: 250, target_percent: 10, percent_kind: "w/v" },
    },
    {
      say: "ten percent solution, two hundred and fifty ml",
      values: { mass_g: 25, total_ml: 250 },
    },
    { say: "how many grams for 500 ml of 2 percent", values: { mass_g: 10 } },
    {
      say: "make 250 ml of a 10 % potassium bromide solution",
      values: { mass_g: 25, substance: "potassium bromide" },
    },
    {
      say: "500 ml of 10 % potassium bromide",
      values: { mass_g: 50, substance: "potassium bromide" },
    },
    { say: ["a 10 percent solution", "250 ml"], values: { mass_g: 25 } },
    {
      say: "a 10 % solution for 10 us fl oz",
      values: { water_ml: 8 * US_OZ, total_ml: 10 * US_OZ },
      source: SS0513,
    },
    {
      say: "how much of a 20 percent stock gives 3.2 grams",
      values: { stock_ml: 16, mass_g: 3.2, stock_percent: 20 },
      source: "British Journal of Photography formulae, stock solution (read in a copy)",
    },
    { say: "3.2 g from a 20 % stock", values: { stock_ml: 16 } },
  ])("$say: $source", (row) => {
    check({ ...row, by: "dissolve" });
  });

  test("it is made up to the mark, never added to it", () => {
    expect(hear(commands, "10 percent solution 250 ml").reply.lines.join("\n")).toContain(
      "TO the 250 mL mark",
    );
  });
});

const grainsOf = (heard: Heard, key: string): readonly number[] => {
  const rows = heard.values.ingredients as readonly Record<string, number>[];
  return rows.map((row) => row[key] ?? Number.NaN);
};

describe("formula", () => {
  test.each<Omit<Row, "by"> & { amounts: readonly number[] }>([
    {
      say: "scale D-76 to 1 litre",
      amounts: [2, 100, 5, 2],
      values: { water_ml: 750, temp_c: 52, total_ml: 1000, scale: 1, formula: "D-76" },
      source: "What is the composition of D76, ingredient table (read); start water from memory",
    },
    {
      say: "scale D-76 to 600 ml",
      amounts: [1.2, 60, 3, 1.2],
      values: { water_ml: 450, scale: 0.6 },
    },
    { say: "d seventy six for six hundred ml", amounts: [1.2, 60, 3, 1.2], values: {} },
    { say: "id-11 500 ml", amounts: [1, 50, 2.5, 1], values: { formula: "D-76" } },
    { say: ["formula", "D-76"], amounts: [2, 100, 5, 2], values: {} },
    {
      say: "formula sb-8 2 litres",
      amounts: [30],
      values: { water_ml: 1500, bath: "stop" },
      source: "The Darkroom Cookbook, 3rd ed., p. 268, Formula 122 (read)",
    },
    {
      say: "s b five",
      amounts: [32, 45],
      values: { water_ml: 500 },
      source: "The Darkroom Cookbook, 3rd ed., p. 268, Formula 121 (read)",
    },
    { say: "sb1 for 1 litre", amounts: [48], values: {}, source: "J-1, SB-1 (from memory)" },
    {
      say: "2 litres of f-5",
      amounts: [480, 30, 96, 15, 30],
      values: { water_ml: 1200, temp_c: 50 },
      source: "J-1, F-5 (from memory)",
    },
  ])("$say: $source", ({ amounts, ...row }) => {
    const heard = check({ ...row, by: "formula" });
    const rows = heard.values.ingredients as readonly { g?: number; ml?: number }[];
    expect(rows.map(({ g, ml }) => g ?? ml)).toEqual(amounts.map((one) => expect.closeTo(one, 9)));
  });

  test("32 US fl oz: g/L times 14.6 are grains: The Darkroom Cookbook, 3rd ed., p. 326 (read)", () => {
    const heard = hear(commands, "d-76 for 32 us ounces in grains");
    wellFormed(heard);
    for (const [index, perLitre] of [2, 100, 5, 2].entries()) {
      expect(Math.abs((grainsOf(heard, "grains")[index] ?? 0) / perLitre - 14.6)).toBeLessThan(
        0.01,
      );
    }
  });

  test("D-76 for 32 US fl oz is 29, 1457.5, 73 and 29 grains: J-1 (from memory)", () => {
    const heard = hear(commands, ["d-76 for a quart", "us"]);
    const printed = [29, 1457.5, 73, 29];
    grainsOf(heard, "equivalent_grains").forEach((grains, index) => {
      expect(Math.abs(grains - (printed[index] ?? 0))).toBeLessThanOrEqual(index === 1 ? 5 : 1);
    });
  });

  test("SB-1 has 1 1/2 fl oz in 32: J-1 (from memory)", () => {
    const heard = hear(commands, "sb-1 for 1 litre in us");
    expect(grainsOf(heard, "equivalent_fl_oz")[0]).toBeCloseTo(1.5, 1);
    expect(grainsOf(heard, "fl_oz")[0]).toBeCloseTo(48 / US_OZ, 9);
  });

  test("literal and formula-equivalent stand apart, and are not the same for a litre", () => {
    const heard = hear(commands, "d-76 for 1 litre", us);
    wellFormed(heard);
    expect(grainsOf(heard, "grains")[1]).toBeCloseTo(1543.24, 1);
    expect(grainsOf(heard, "equivalent_grains")[1]).toBeCloseTo(1460.45, 1);
    const text = heard.reply.lines.join("\n");
    expect(text).toContain("metol  2 g = 30.9 grains\n");
    expect(text).toContain("for 32 US fl oz, formula-equivalent: metol 29.2 grains;");
    const quart = hear(commands, "d-76 for a US quart", us).reply.lines.join("\n");
    expect(quart).toContain("29.2 grains");
    expect(quart).not.toContain("formula-equivalent");
    expect(heard.values.equivalent_total_ml).toBeCloseTo(US_BASIS.fluidOunces * US_OZ, 9);
    expect(hear(commands, "d-76 for 1 litre in grams", us).values).not.toHaveProperty(
      "equivalent_total_ml",
    );
  });

  test("80 Imperial fl oz: 5 g/L is 175 grains: Kodak Limited (Harrow) formulary, TC-2 (read)", () => {
    const heard = hear(commands, "d-76 for 1 litre in imperial");
    expect(grainsOf(heard, "equivalent_grains")[2]).toBeGreaterThan(174);
    expect(grainsOf(heard, "equivalent_grains")[2]).toBeLessThan(176);
  });

  test("a formula from memory says so; a hydrate is named", () => {
    const f5 = hear(commands, "f-5").reply;
    expect(f5.cautions.join(" ")).toContain("F-5 is from memory, not read");
    expect(f5.cautions.join(" ")).toContain("Acid to water");
    expect(f5.lines.join(" ")).toContain("sodium thiosulfate, pentahydrate; ");
    expect(hear(commands, "sb-8").reply.cautions.join(" ")).not.toContain("from memory");
  });

  test("formulas lists them with how well each source was seen", () => {
    const heard = hear(commands, "formulas");
    wellFormed(heard);
    expect(heard.values.formulas).toContainEqual({
      formula: "F-5",
      bath: "fixer",
      evidence: "from memory",
    });
  });
});

const LANG = "Langford's Basic Photography, Appendix D (read)";
const CB329 = "The Darkroom Cookbook, 3rd ed., p. 329";
const CB330 = "The Darkroom Cookbook, 3rd ed., p. 330 (read)";

describe("swap", () => {
  test.each<Omit<Row, "by">>([
    {
      say: "I have sodium carbonate monohydrate instead of anhydrous",
      values: { factor: 1.17 },
      source: LANG,
    },
    {
      say: "swap 50 g anhydrous sodium carbonate for the monohydrate",
      values: { factor: 1.17, mass_g: 50, in_jar: "sodium carbonate, monohydrate" },
      source: LANG,
    },
    {
      say: "the formula says soda ash but i only have washing soda",
      values: { factor: 2.6997 },
      source: LANG,
    },
    {
      say: "formula says anhydrous sodium sulphite and I have the heptahydrate",
      values: { factor: 2.0005 },
      source: LANG,
    },
    { say: "use anhydrous hypo instead of hypo", values: { factor: 0.637 }, source: CB330 },
    {
      say: ["formula says borax decahydrate i have borax", "pentahydrate"],
      values: { factor: 0.7638 },
      source: `${CB329} (read)`,
    },
    {
      say: "formula says potassium bromide i have sodium bromide 2.5 g",
      values: { factor: 0.8646, mass_g: 2.5 },
      source: CB330,
    },
    {
      say: "the recipe calls for potassium hydroxide but i have got sodium hydroxide",
      values: { factor: 0.7129 },
      source: `${CB329}, printed the wrong way round (read); molar masses`,
    },
    {
      say: "substitute potassium hydroxide for sodium hydroxide",
      values: { factor: 1.4027 },
      source: `${CB329}, printed the wrong way round (read); molar masses`,
    },
    {
      say: ["swap", "soda ash", "washing soda"],
      values: { factor: 2.6997, printed: "sodium carbonate, anhydrous" },
      source: LANG,
    },
  ])("$say: $source", (row) => {
    check({ ...row, by: "swap", within: 0.0005 });
  });

  test("240 g of thiosulfate crystals are 152.9 g anhydrous: The Darkroom Cookbook, p. 268, prints 153.6 by its rule (read)", () => {
    check({
      say: "swap two hundred and forty grams of hypo for anhydrous hypo",
      by: "swap",
      values: { mass_g: 240, instead_g: 152.9 },
      within: 0.05,
    });
  });

  test("the direction stands in the title", () => {
    expect(hear(commands, "swap 50 g soda ash for washing soda").reply.title).toBe(
      "The formula says sodium carbonate, anhydrous, you have sodium carbonate, decahydrate: take 2.7 times the weight",
    );
  });
});

describe("water", () => {
  test.each<Omit<Row, "by">>([
    {
      say: "1 litre at 49 from 60 and 15",
      values: { hot_ml: 759.6, cold_ml: 241.8, temp_c: 49, hot_c: 60, cold_c: 15 },
    },
    { say: "one litre at forty nine from sixty and fifteen", values: { hot_ml: 759.6 } },
    { say: "1 litre at 49 from 15 and 60", values: { hot_ml: 759.6, hot_c: 60 } },
    { say: ["1 litre at 49", "60 c", "15"], values: { hot_ml: 759.6 } },
    {
      say: "how much hot and cold water for 1 litre at 38 with hot 60 and cold 15",
      values: { hot_ml: 516.2, cold_ml: 485.9 },
    },
    {
      say: "warm 800 ml to 43 hot 60 cold 12",
      values: { hot_ml: 520.8, cold_ml: 280.9, total_ml: 800 },
    },
    {
      say: "1 litre at 120 f from 140 and 60",
      values: { temp_c: 48.889, hot_c: 60, cold_c: 15.556 },
      within: 0.001,
    },
    { say: "1 litre at 120 from 140 and 60", values: { temp_c: 48.889, hot_c: 60 }, within: 0.001 },
    {
      say: "1 litre at 38 from 60 and 15 vessel 40 ml at 20",
      values: { hot_ml: 532.5, vessel_ml: 40, vessel_c: 20, aim_c: 38 },
    },
    {
      say: "1 litre at 38 from 60 and 15 with 200 ml of parts at 20",
      values: { hot_ml: 597.4, parts_ml: 200, parts_c: 20, aim_c: 41.6 },
    },
    { say: ["1 litre at 38 from 60 and 15 with 200 ml of parts", "20"], values: { hot_ml: 597.4 } },
  ])("$say", (row) => {
    const heard = check({ within: 0.06, ...row, by: "water" });
    expect(heard.reply.lines.at(-1)).toBe("Measure and trim.");
  });

  test("counted by volume a litre at 49 would take 755.6 and 244.4 mL; by mass it is within 0.6 %: own arithmetic (derived)", () => {
    const { values } = hear(commands, "1 litre at 49 from 60 and 15");
    expect(Math.abs(Number(values.hot_ml) / 755.6 - 1)).toBeLessThan(0.006);
  });

  test("500 mL at 60 with 500 mL at 20 come to 39.85: own arithmetic from water's densities (derived)", () => {
    const { values } = hear(commands, "1 litre at 39.85 from 60 and 20");
    expect(Math.abs(Number(values.hot_ml) - Number(values.cold_ml))).toBeLessThan(1);
  });

  test("bare degrees on a Fahrenheit bench are Fahrenheit", () => {
    const { values } = hear(commands, "1 litre at 75 from 90 and 60", { degrees: "F" });
    expect(values.hot_c).toBeCloseTo(32.22, 2);
  });
});

describe("trim", () => {
  test.each<Omit<Row, "by">>([
    {
      say: "bath 1 litre is at 37.2 want 38 with 60 water",
      values: { add_ml: 36.7, temp_c: 38, now_c: 37.2, supply_c: 60, total_ml: 1036.7 },
    },
    { say: "trim 1 litre from 37.2 to 38 with 60", values: { add_ml: 36.7 } },
    { say: ["trim", "1 litre", "37.2", "38", "60"], values: { add_ml: 36.7 } },
    { say: "trim 1 litre from 38 to 38 with 60", values: { add_ml: 0, total_ml: 1000 } },
  ])("$say", (row) => {
    const heard = check({ ...row, by: "trim", within: 0.06 });
    expect(heard.reply.lines.at(-1)).toBe("Stir, measure and trim.");
  });
});

const NISTX = "NIST weights and measures tables (read)";

describe("convert", () => {
  test.each<Omit<Row, "by">>([
    {
      say: "convert 20 us fl oz to ml",
      values: { ml: 591.4706, fl_oz_us: 20, kind: "volume" },
      source: NISTX,
    },
    { say: ["20 ounces in ml", "us"], values: { ml: 591.4706 }, source: NISTX },
    {
      say: ["twenty ounces in ml", "imperial"],
      values: { ml: 568.26125, fl_oz_imperial: 20 },
      source: NISTX,
    },
    { say: "how many ml in a us quart", values: { ml: QUART, fl_oz_us: 32 }, source: NISTX },
    { say: "a us pint in ml", values: { ml: 473.176473 }, source: NISTX },
    {
      say: "an imperial gallon in us ounces",
      values: { ml: 4546.09, fl_oz_imperial: 160 },
      source: "NIST SP 811 (from memory)",
    },
    {
      say: "one us ounce in imperial ounces",
      values: { fl_oz_imperial: 1.0408 },
      within: 0.0001,
      source: NISTX,
    },
    {
      say: "500 ml in ounces",
      values: { fl_oz_us: 16.907, fl_oz_imperial: 17.598 },
      within: 0.001,
      source: NISTX,
    },
    {
      say: "1 ounce in grams",
      values: { g: 28.349523125, grains: 437.5, oz: 1, kind: "mass" },
      source: NISTX,
    },
    { say: "how many grains in a pound", values: { grains: 7000 }, source: NISTX },
    {
      say: "what is 100 f in c",
      values: { c: 37.8, f: 100, kind: "temperature" },
      within: 0.05,
      source: "Z-131 section 4, Table 4-1 (read)",
    },
    {
      say: "what's a hundred fahrenheit in celsius",
      values: { c: 37.8 },
      within: 0.05,
      source: "Z-131 section 4, Table 4-1 (read)",
    },
    {
      say: "98 f in c",
      values: { c: 36.7 },
      within: 0.05,
      source: "Module 9, Process ECP-2E, p. 9-11 footnote * (read)",
    },
    { say: "68 f to c", values: { c: 20 }, source: "NAVEDTRA 14209, p. 10-15 (read)" },
    { say: "38 c in f", values: { f: 100.4 }, source: "SI" },
    { say: "38 in f", values: { c: 38, f: 100.4 }, source: "SI" },
    {
      say: "1 degree f difference in c",
      values: { c: 5 / 9, f: 1, kind: "difference" },
      source: "NIST SP 811 (from memory)",
    },
    {
      say: "a difference of 18 f in c",
      values: { c: 10 },
      source: "TM 11-2323, cold-climate paragraph c (read)",
    },
    { say: "plus or minus 0.3 c in f", values: { f: 0.54 }, source: "NIST SP 811 (from memory)" },
    {
      say: "80 sq in in cm2",
      values: { in2: 80, cm2: 516.128, kind: "area" },
      source: "own arithmetic (derived)",
    },
    {
      say: "516.128 square centimetres in square inches",
      values: { in2: 80 },
      source: "own arithmetic (derived)",
    },
  ])("$say: $source", (row) => {
    check({ within: 1e-4, ...row, by: "convert" });
  });
});

const CB108 = "The Darkroom Cookbook, 3rd ed., p. 108, 80 sq in unit (read)";

describe("area", () => {
  test.each<Omit<Row, "by">>([
    {
      say: "how many units are two 120 and a 135",
      values: { units: 3, area_in2: 240, assumed: "135 taken as 36 exposures" },
      source: CB108,
    },
    {
      say: "area of four 4x5",
      values: { units: 1, area_in2: 80, area_cm2: 516.128 },
      source: CB108,
    },
    { say: "area of an 8x10", values: { units: 1 }, source: CB108 },
    { say: "how many units is a roll of 36", values: { units: 1 }, source: CB108 },
    {
      say: "how many units are two rolls",
      values: { units: 2, assumed: "no format named, taken as 135 with 36 exposures" },
    },
    { say: ["area of three sheets", "8x10"], values: { units: 3 }, source: CB108 },
    { say: ["area", "two 120"], values: { units: 2 }, source: CB108 },
  ])("$say: $source", (row) => {
    check({ ...row, by: "area", within: 1e-9 });
  });
});

describe("enough", () => {
  test.each<Omit<Row, "by">>([
    {
      say: "how much developer can i mix from 60 ml of part A",
      values: { total_ml: 6000 / 11, limited_by: "A", scale: 6 / 11 },
    },
    {
      say: "how much developer can I mix from sixty ml of A left",
      values: { total_ml: 6000 / 11 },
    },
    {
      say: ["enough for 80 ml of A", "developer"],
      values: { total_ml: 8000 / 11, bath: "developer" },
    },
    {
      say: "largest batch of developer with 80 ml of A and 30 ml of B",
      values: { limited_by: "B", total_ml: 3000 / 7 },
    },
    {
      say: "largest batch of blix with 90 ml B left",
      values: { total_ml: 1000, whole_total_ml: 1000 },
    },
    {
      say: "largest batch of blix with 45 ml B left",
      values: { total_ml: 500, whole_total_ml: 0 },
    },
  ])("$say, on the demo sheet", (row) => {
    check({ ...row, by: "enough", habits: demo });
  });

  test("the sheet can be named in the sentence", () => {
    const said = "how much developer can i mix from 60 ml of part A by the demo sheet";
    expect(hear(commands, said).values).toMatchObject({ sheet: "saltmarsh demo", limited_by: "A" });
  });
});

describe("refused or asked, with what was read", () => {
  test.each([
    ["dilute 0 ml 1+9", "nothing-to-mix", "I read 0 mL"],
    ["dilute -500 ml 1+9", "nothing-to-mix", "I read -500 mL"],
    ["dilute 10,000 L 1+9", "too-large", "I read 10000 L"],
    ["dilute 500 ml 1+99999999", "bad-parts", "99999999 parts"],
    ["dilute 150 litres of concentrate 1+9", "too-large", "1500 L"],
    ["from -5 percent to 2 percent 1 litre", "not-a-strength", "I read -5 %"],
    ["from 28 percent to 0 percent 1 litre", "no-solute", "plain water"],
    ["from 2 percent to 28 percent 1 litre", "outside", "28 % lies outside 0 % and 2 %"],
    ["500 ml of 5 % w/v from 28 % v/v", "kinds-differ", "I read v/v and w/v"],
    ["500 ml of 5 % w/w from 28 % w/w", "wrong-measure", "in grams"],
    ["mix 20 % with 5 % to get 30 %", "outside", "30 % lies outside"],
    ["mix 20 % with 20 % to get 20 %", "same-strength", "Both are 20 %"],
    ["10 percent solution -250 ml", "nothing-to-mix", "I read -250 mL"],
    ["300 percent solution 250 ml", "not-a-strength", "I read 300 %"],
    ["10 % v/v solution 250 ml", "percent-kind", "I read v/v"],
    ["250 ml of 10 % v/v alcohol", "percent-kind", "I read v/v"],
    ["500 ml of 5 % acetic acid solution", "needs-stock", "no powder"],
    ["scale d-76 to 10000 litres", "too-large", "I read 10000 L"],
    ["scale D-999 to 1 litre", "unknown-formula", "D-999"],
    ["d-76 for 1 litre in bananas", "out-of-range", "bananas"],
    ["swap 5 g soda ash for nonsense powder", "unknown-compound", "nonsense powder"],
    ["swap -5 g potassium bromide for sodium bromide", "nothing-to-mix", "I read -5 g"],
    ["swap 5 g soda ash for sodium metaborate", "different-family", "carbonate"],
    ["1 litre at 49 from 300 c and 15", "not-liquid", "I read 300 °C"],
    ["1 litre at 70 from 60 and 15", "out-of-reach", "cannot come from"],
    ["1 litre at 10 from 60 and 15", "out-of-reach", "cannot come from"],
    ["1 litre at 49 from 60 and 60", "supplies-not-apart", "not hotter"],
    ["1 litre at 1e308 from 60 and 15", "out-of-range", "degrees"],
    ["10000 litres at 49 from 60 and 15", "too-large", "I read 10000 L"],
    ["1 litre at 38 from 60 and 15 vessel -40 ml at 20", "nothing-to-mix", "I read -40 mL"],
    [
      "1 litre at 59 from 60 and 15 with 900 ml of parts at 5",
      "out-of-reach",
      "what else it meets",
    ],
    ["bath 1 litre is at 37.2 want 38 with 20 water", "no-help", "take hotter water"],
    ["convert 300 c to f", "out-of-range", "I read 300 °C"],
    ["convert 1e308 c to f", "out-of-range", "degrees"],
    ["convert 10000 litres to ml", "too-large", "I read 10000 L"],
    ["convert -5 g to grains", "nothing-to-mix", "I read -5 g"],
    ["convert 20 ml to grams", "needs-density", "density"],
    ["0 sq in in cm2", "out-of-range", "I read 0 sq in"],
    ["area of 0 120", "out-of-range", "at least one"],
    ["area of 5000 4x5", "out-of-range", "Give fewer"],
    ["how much developer can i mix from 60 ml of part A", "amount-unknown", "A"],
    [
      "how much developer can i mix from 0 ml of part A by the demo sheet",
      "nothing-left",
      "I read 0 mL",
    ],
    ["how much developer can i mix from 60 ml of part Q by the demo sheet", "unknown-part", '"Q"'],
    [
      "how much developer can i mix from 60 g of part A by the demo sheet",
      "wrong-measure",
      "I read 60 g",
    ],
    ["how much bleach can i mix from 60 ml of part A by the demo sheet", "no-figures", "bleach"],
  ])("%s: %s", (said, reason, words) => {
    const heard = hear(commands, said);
    expect(heard.reply.kind).toBe("refusal");
    expect(heard.values.reason).toBe(reason);
    expect(heard.reply.title).toContain(words);
    wellFormed(heard);
  });

  test.each([
    "dilute 1e309 ml 1+9",
    "dilute 500 ml 0+9",
    "from 1e309 percent to 2 percent 1 litre",
    "10 percent solution 1e309 ml",
    "scale d-76 to 1e309 ml",
    "1 litre at 49 from 1e309 and 15",
    "convert nan c to f",
    "swap 1e309 g potassium bromide for sodium bromide",
  ])("%s is no number", (said) => {
    const { reply, values } = hear(commands, said);
    expect([reply.kind, values.reason]).toEqual(["refusal", "unreadable-number"]);
  });

  test.each([
    ["dilute a quart 1+9", "US or Imperial?"],
    ["dilute 500 1+9", "of what"],
    ["32 ounces of 28 % from 99.5 %", "by weight"],
    ["from 28 percent to 2 percent", "How much in all"],
    ["formula", "D-76, SB-5"],
    ["swap 5 g sodium carbonate for washing soda", "anhydrous; sodium carbonate, monohydrate"],
    ["1 litre at 38", "How hot is the hot water?"],
    ["area of three sheets", "What size"],
    ["enough for 80 ml of A by the demo sheet", "Which bath: developer or blix"],
  ])("%s asks: %s", (said, words) => {
    const { reply } = hear(commands, said);
    expect(reply.kind).toBe("question");
    expect(reply.title).toContain(words);
    expect(reply.say.split(/\s+/).length).toBeLessThanOrEqual(12);
  });
});

describe("beside the other commands", () => {
  const examples = commands.flatMap(({ name, examples: said }) =>
    said.map((one) => [name, one] as const),
  );

  test.each(examples.filter(([name]) => ours.includes(name)))("%s answers %j", (name, said) => {
    expect(hear(commands, said, { ...us, ...demo }).by).toBe(name);
  });

  test.each(examples.filter(([name]) => !ours.includes(name)))("%s keeps %j", (_, said) => {
    expect(ours).not.toContain(hear(commands, said).by);
  });
});

test("whatever numbers and words come together: an answer in one breath, never a throw", () => {
  const openings = commands
    .filter(({ name }) => ours.includes(name))
    .flatMap(({ examples }) => examples)
    .map((said) => said.split(" "));
  const odd = fc.constantFrom(
    ..."0 -1 1e300 1e309 nan 1+9 1:0 0:9 1:0.5 % w/w w/v c f ml l us oz grains g kg a and of at from to instead for hot cold parts part D-76 4x5 135 sheets half sodium anhydrous".split(
      " ",
    ),
  );
  const sentence = fc
    .tuple(fc.constantFrom(...openings), fc.array(fc.tuple(fc.nat(12), odd), { maxLength: 4 }))
    .map(([words, changes]) => {
      const mixed = [...words];
      for (const [at, word] of changes) mixed.splice(at % (mixed.length + 1), at % 2, word);
      return mixed.join(" ");
    });
  const holds = fc.property(sentence, (said) => {
    const heard = hear(commands, said, demo);
    if (heard.by !== undefined && ours.includes(heard.by)) wellFormed(heard);
    expect(JSON.stringify(heard.values)).not.toMatch(/NaN|Infinity/);
  });
  fc.assert(holds, { numRuns: 400 });
});
