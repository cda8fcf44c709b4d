import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { type Run, stageSchema } from "../../src/domain/session/run.ts";
import { type Heard, hear } from "../support/hear.ts";
import { playChat } from "../support/play-chat.ts";

// The demo sheet's figures are invented: 3:25, 5 % a unit, +40 s a stop, 9 units a litre.

const commands = await loadCommands();
const say = (...sentences: string[]): Heard => hear(commands, sentences);
const demo = ["use sheet saltmarsh demo", "bottle developer 1 litre mixed today"] as const;
const north = "start developer two rolls of 120 tank north";
const south = "start developer two rolls of 120 tank south";
const runOf = ({ record }: Heard, tank: string): Run => {
  const run = Object.values(record.bench.runs).find((one) => one.tank === tank);
  if (run === undefined) throw new Error(`no run in ${tank}`);
  return run;
};
const timeOf = (heard: Heard, tank: string): number | undefined =>
  runOf(heard, tank).stages[0]?.time;
const text = ({ reply }: Heard): string =>
  [reply.title, ...reply.lines, ...reply.cautions].join("\n");
const chat = (...lines: string[]): Promise<string> =>
  playChat(
    ["# at 2026-11-28T19:30:00", "", ...demo.map((one) => `> ${one}`), ...lines].join("\n"),
    commands,
  );

test("a tank that waits while another goes through its bottle is timed for what the bottle has done", async () => {
  const played = await chat(
    `> ${north}`,
    `> ${south}`,
    "> south wait",
    "> north in",
    "@+3m25s",
    "@+1m",
    "> south ready",
    "> south in",
  );
  expect(played.split("> south in")[1]).toContain("exactly 3:46");
});

test("a plan counts the film of a tank that pours first, and says whose", () => {
  const heard = say(...demo, north, south);
  expect(heard.values.time_s).toBeCloseTo(225.5, 9);
  expect(text(heard)).toContain("after North's 2 units");
});

test("when the other tank waits, the promise is off, and it is said once and written down", () => {
  const heard = say(...demo, north, south, "north wait");
  expect(timeOf(heard, "South")).toBe(205);
  expect(text(heard)).toContain("South: developer 3:25 instead of 3:46: Acorn has done 0 units");
  expect(runOf(heard, "South").notes.at(-1)?.text).toContain("3:25 instead of 3:46");
  const again = say(...demo, north, south, "north wait", "where are we");
  expect(text(again)).not.toContain("instead of");
});

test("the one that pours first after all has the time for that, and the other takes the longer", () => {
  const heard = say(...demo, north, south, "south in");
  expect(text(heard)).toContain("exactly 3:25");
  expect(text(heard)).toContain("developer 3:25 instead of 3:46");
  expect(heard.reply.say.split(/\s+/).length).toBeLessThanOrEqual(12);
  expect(timeOf(heard, "North")).toBeCloseTo(225.5, 9);
  expect(text(heard)).toContain("North: developer 3:46 instead of 3:25");
});

test("push and told temperature stay in a time that is worked out again", () => {
  const estimated = "start developer one roll tank north at 36.5 pushed one stop";
  const before = say(...demo, estimated, "middle");
  const after = say(...demo, estimated, "middle", "Acorn has done 2 rolls");
  const kinds = (heard: Heard): readonly string[] =>
    (runOf(heard, "North").stages[0]?.corrections ?? []).map(({ kind }) => kind);
  expect(kinds(before)).toEqual(["push", "temperature"]);
  expect(kinds(after)).toEqual(["re-use", "push", "temperature"]);
  const fresh = say(...demo, "Acorn has done 2 rolls", estimated, "middle");
  expect(timeOf(after, "North")).toBe(timeOf(fresh, "North"));
  const stage = runOf(after, "North").stages[0];
  expect(stageSchema.parse(JSON.parse(JSON.stringify(stage)))).toEqual(stage);
});

test("a bath brought to the sheet's temperature is timed for that when its bottle does more", () => {
  const kept = "start developer one roll tank north at 36.5";
  const heard = say(...demo, kept, "keep", "Acorn has done 2 rolls");
  expect(timeOf(heard, "North")).toBeCloseTo(225.5, 9);
  expect(text(say(...demo, kept, "keep"))).toContain("bring the bath to 38.2");
});

test("a time that would go beyond double the sheet's stays, and that is said once", () => {
  const far = say(...demo, north, "Acorn has done 30 rolls");
  expect(timeOf(far, "North")).toBe(205);
  expect(text(far)).toContain("North: developer stays 3:25, and Acorn has done 30 units by then.");
  expect(text(far)).toContain("use fresh developer");
  const later = say(...demo, north, "Acorn has done 30 rolls", "note late", "north wait");
  expect(text(later)).not.toContain("stays");
});

test("a rehearsal follows no bottle and is promised to none", () => {
  const heard = say(...demo, "rehearse saltmarsh demo tank west", south, "Acorn has done 2 rolls");
  expect(runOf(heard, "West").stages[0]?.follows).toBeUndefined();
  expect(runOf(heard, "West").stages[0]?.corrections ?? []).toEqual([]);
});

test("how long counts the bottle and the temperature together", () => {
  const heard = say(
    ...demo,
    "Acorn has done 2 rolls",
    "how long is the developer from Acorn at 37",
  );
  expect(text(heard)).toContain("+21 s re-use");
  expect(text(heard)).toContain("As Acorn stands, 2 units done.");
  expect(heard.values.bottle).toBe("Acorn");
});

test("a stage that is in is never changed", () => {
  const heard = say(...demo, north, "north in", "Acorn has done 6 rolls");
  expect(timeOf(heard, "North")).toBe(205);
});

test("a count set by hand reaches a plan that waits, and undo takes both back", () => {
  const heard = say(...demo, north, "Acorn has done 4 rolls");
  expect(timeOf(heard, "North")).toBeCloseTo(246, 9);
  expect(heard.reply.say).toContain("North: developer now 4 minutes 6.");
  expect(say(...demo, north, "Acorn has done 4 rolls", "undo").record.bench).toEqual(
    say(...demo, north).record.bench,
  );
});

test("a time the user gave is nobody's to change", () => {
  const told = "start developer two rolls of 120 for 5 minutes tank south";
  const heard = say(...demo, north, told, "north in", "Acorn has done 6 rolls");
  expect(timeOf(heard, "South")).toBe(300);
});

test("push is worked out again on top of the re-use", () => {
  const heard = say(...demo, "start developer two rolls pushed one stop", "Acorn has done 4 rolls");
  expect(timeOf(heard, "Tank")).toBeCloseTo(286, 9);
});

test("a clock that takes a pour as heard leaves the time right for the other tank", async () => {
  const played = await chat(
    `> ${north}`,
    "> north wait",
    `> ${south}`,
    "> north ready",
    "@+2m",
    "> summary of south",
  );
  expect(played).toContain("3:46");
  expect(played).toContain("3:25");
});

test("why and summary show the working", () => {
  const heard = [...demo, north, south, "north in", "south in"];
  expect(text(say(...heard, "why"))).toContain("5 % per roll of the sheet's time, 2 done");
  expect(text(say(...heard, "summary of south"))).toContain("2 done");
});

test("what a waiting stage follows survives the store", () => {
  const stage = runOf(say(...demo, north), "North").stages[0];
  expect(stage?.follows).toBeDefined();
  expect(stageSchema.parse(JSON.parse(JSON.stringify(stage))).follows).toEqual(stage?.follows);
});

const blended = [...demo, "Acorn has done 4 rolls", "use sheet colour negative"] as const;

test("the time is by the sheet the bottle was mixed by, and says so", () => {
  const heard = say(...blended, "start developer one roll of 120 from Acorn");
  expect(heard.values).toMatchObject({ sheet: "saltmarsh demo", time_s: 246, temp_c: 38.2 });
  expect(text(heard)).toContain("Time by the saltmarsh demo sheet, which Acorn was mixed by.");
  expect(text(heard)).toContain("INVENTED");
  expect(runOf(heard, "Tank").sheet).toBe("demo");
});

test("another sheet named in the sentence stops and asks whose time", () => {
  const asked = [...blended, "start developer by colour negative one roll of 120"];
  expect(say(...asked).reply.kind).toBe("question");
  expect(say(...asked).reply.say).toBe("Whose developer time: saltmarsh demo or colour negative?");
  expect(say(...asked, "saltmarsh demo").values.time_s).toBe(246);
  const named = say(...asked, "colour negative");
  expect(named.values.time_s).toBe(195);
  expect(text(named)).toContain("as you said; Acorn was mixed by the saltmarsh demo sheet");
});

test("of a whole process only the developer goes by its bottle's sheet, and a recall finds it", () => {
  const heard = say(
    ...blended,
    "start a run with one roll of 120",
    "yes",
    "in",
    "the demo sheet was misread",
    "recall the demo sheet",
  );
  const { stages, sheet } = runOf(heard, "Tank");
  expect(sheet).toBe("colour-negative");
  expect(stages.map((stage) => stage.sheet ?? "in use").filter((by) => by === "demo")).toEqual([
    "demo",
  ]);
  expect(JSON.stringify(heard.values)).toContain("run-");
});

test("a push goes by the bottle's own rule", () => {
  const heard = say(...blended, "how long for push two from Acorn");
  expect(heard.values).toMatchObject({ time_s: 326, sheet: "saltmarsh demo", bottle: "Acorn" });
  expect(text(heard)).toContain("which Acorn was mixed by");
});

test("how long is the developer counts what the only bottle has done", () => {
  const heard = say(...demo, "Acorn has done 11 rolls", "how long is the developer");
  expect(heard.values.time_s).toBeCloseTo(205 * 1.55, 9);
  expect(heard.values.bottle).toBe("Acorn");
  expect(text(heard)).toContain("As Acorn stands, 11 units done");
});

test("two bottles: the sheet's time, and how to ask for one", () => {
  const two = [
    ...demo,
    "bottle developer 1 litre mixed today called Dora",
    "Acorn has done 4 rolls",
  ];
  const bare = say(...two, "how long is the developer");
  expect(bare.values.time_s).toBe(205);
  expect(text(bare)).toContain("say how long is the developer from Acorn");
  const one = say(...two, "how long is the developer from Acorn");
  expect(one.by).toBe("how long");
  expect(one.values.time_s).toBe(246);
});

test.each([
  ["start developer for 3 rolls", 3],
  ["start developer for two rolls of 120", 2],
  ["start developer for 3 films", 3],
])("%j is film, no time", (sentence, units) => {
  expect(say(...demo, sentence).values).toMatchObject({ units, time_s: 205 });
});
