import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { newRecord } from "../../src/conversation/record.ts";
import type { Bottle } from "../../src/domain/chemistry/bottle.ts";
import { type Heard, hear } from "../support/hear.ts";

const commands = await loadCommands();
const say = (...sentences: string[]): Heard => hear(commands, sentences);
const demo = (...sentences: string[]): Heard =>
  say("use sheet demo", "bottle developer 1 litre mixed today", ...sentences);
const acorn = ({ record }: Heard): Bottle | undefined => record.bench.bottles["bottle-1"];

/** Every command of bottles, counts, re-use, push, guards and waste, with sentences for each. */
const own = new Set([
  "bottle",
  "bottles",
  "open",
  "poured",
  "returned",
  "fill",
  "move",
  "count",
  "nothing in",
  "rolls left",
  "which bottle",
  "push",
  "replenish",
  "suspect",
  "trust",
  "recall",
  "clip test",
  "looks",
  "retire",
  "waste",
  "collects",
  "cost",
  "expires",
]);

test.each([
  ["bottle developer stock 1 litre mixed today half full", "bottle"],
  ["bottle 500 ml of blix mixed yesterday in glass", "bottle"],
  ["opened fixer concentrate 500 ml yesterday", "open"],
  ["how is Acorn", "bottles"],
  ["poured 300 ml from Acorn", "poured"],
  ["took 200 ml out of Acorn", "poured"],
  ["poured 300 ml from Acorn into the blue jug", "poured"],
  ["back in Acorn", "returned"],
  ["pour the developer back in Acorn", "returned"],
  ["280 ml back in Acorn", "returned"],
  ["nothing back in Acorn", "returned"],
  ["Acorn is half full", "fill"],
  ["Acorn is nearly empty", "fill"],
  ["Acorn stands under the sink", "move"],
  ["where does Acorn stand", "move"],
  ["count is right", "count"],
  ["Acorn has done 6 rolls", "count"],
  ["nothing went in", "nothing in"],
  ["how many rolls are left in Acorn", "rolls left"],
  ["what is left in Acorn", "rolls left"],
  ["can I do two 120 in Acorn", "which bottle"],
  ["which bottle for developer", "which bottle"],
  ["which developer for three rolls", "which bottle"],
  ["which bottle for this", "which bottle"],
  ["how long for push two", "push"],
  ["developer time for push one from Acorn", "push"],
  ["replenish Acorn for two rolls", "replenish"],
  ["Acorn is suspect", "suspect"],
  ["Acorn is suspect because it smells of vinegar", "suspect"],
  ["blix went into Acorn", "suspect"],
  ["the red thermometer was off", "suspect"],
  ["the demo sheet was misread", "suspect"],
  ["trust Acorn again", "trust"],
  ["recall", "recall"],
  ["recall Acorn", "recall"],
  ["what did Acorn touch", "recall"],
  ["recall the red thermometer", "recall"],
  ["when does Acorn expire", "expires"],
  ["clip test Acorn", "clip test"],
  ["clip test Acorn passed", "clip test"],
  ["Acorn looks dark", "looks"],
  ["throw Acorn away", "retire"],
  ["retire Acorn because it is old", "retire"],
  ["our drain is septic", "waste"],
  ["we are on a septic tank", "waste"],
  ["where can I pour used blix", "waste"],
  ["the council collects fixer", "collects"],
  ["Acorn cost 14 euros", "cost"],
  ["I paid 12.50 pounds for Acorn", "cost"],
  ["what does a roll cost", "cost"],
])("%j is heard by %s, says at most 12 words and documents what it returns", (sentence, name) => {
  const { by, reply, values } = demo(sentence);
  expect(by).toBe(name);
  expect(own.has(name)).toBe(true);
  expect(reply.say.split(/\s+/).length).toBeLessThanOrEqual(12);
  const known = Object.keys(commands.find((one) => one.name === name)?.values ?? {});
  const given = Object.keys(values).filter((key) => !["reason", "field", "read"].includes(key));
  expect(given.filter((key) => !known.includes(key))).toEqual([]);
  for (const line of [reply.title, ...reply.lines]) expect(line.length).toBeLessThanOrEqual(240);
});

test.each([
  ["bottle developer 1 litre mixed tomorrow", "future-date"],
  ["bottle developer 1 litre mixed 3 May 1850", "before-film"],
  ["bottle developer 1 litre mixed 3 May 2001", "too-old"],
  ["bottle developer 1 litre mixed today in a water bottle", "drink-bottle"],
  ["bottle developer 1 litre mixed today called Akorn", "sounds-alike"],
  ["bottle developer 1 litre mixed today called Cola", "drink-name"],
  ["bottle developer 1 litre mixed today with -2 rolls done", "out-of-range"],
  ["Acorn has done -1 rolls", "out-of-range"],
  ["Acorn has done 9000 rolls", "out-of-range"],
  ["poured 2 litres from Acorn", "more-than-there"],
  ["poured 0 ml from Acorn", "out-of-range"],
  ["900 ml back in Acorn", "no-room"],
  ["blix back in Acorn", "one-way"],
  ["stabilizer back in Acorn", "one-way"],
  ["nothing went in", "no-run"],
  ["count is right", "nothing-counted"],
  ["trust Acorn", "not-suspect"],
  ["what does a roll cost", "no-price"],
  ["Acorn cost -3 euros", "out-of-range"],
  ["replenish Acorn for two rolls", "no-rate"],
  ["where does Acorn stand", "place-unknown"],
  ["Acorn cleared in 40 seconds", "no-clearing-time"],
  ["how long for push nine", "too-far"],
  ["start developer two rolls pushed one stop and one roll", "mixed-push"],
  ["start developer ten rolls", "beyond-capacity"],
])("%j is refused as %s, and nothing is lost", (sentence, reason) => {
  const before = demo();
  const { reply, record } = demo(sentence);
  expect(reply.kind).toBe("refusal");
  expect(reply.facts.reason).toBe(reason);
  expect(record.bench).toEqual(before.record.bench);
  expect(reply.title).toMatch(/[.?]$/);
});

test.each([
  [["poured 300 ml from Acorn"]],
  [["Acorn is half full"]],
  [["Acorn stands in the cellar"]],
  [["Acorn has done 6 rolls"]],
  [["Acorn is suspect"]],
  [["clip test Acorn failed"]],
  [["Acorn cost 14 euros"]],
  [["our drain is septic"]],
  [["retire Acorn", "yes"]],
  [["opened fixer concentrate 500 ml today"]],
])("undo takes back %j whole", (sentences) => {
  const before = demo().record.bench;
  const changed = demo(...sentences).record.bench;
  expect(changed).not.toEqual(before);
  expect(demo(...sentences, "undo").record.bench).toEqual(before);
});

test("a return waits for the name on the bottle in hand; a wrong one changes nothing", () => {
  const poured = ["bottle blix 1 litre mixed today", "poured 300 ml from Acorn", "back in Acorn"];
  const asked = demo(...poured);
  expect(asked.reply.kind).toBe("question");
  expect(asked.reply.title).not.toContain("Acorn");
  const wrong = demo(...poured, "Banjo");
  expect(wrong.reply.facts.reason).toBe("wrong-bottle");
  expect(wrong.reply.say).toMatch(/^STOP/);
  expect(acorn(wrong)?.contents).toBe(700);
  expect(demo(...poured, "Dora").reply.facts.reason).toBe("wrong-bottle");
  expect(acorn(demo(...poured, "Acorn"))?.contents).toBe(1000);
  // Yes is no name.
  expect(acorn(demo(...poured, "yes"))?.contents).toBe(700);
});

test("a vessel that held blix is no vessel for developer until it was washed", () => {
  const jug = ["bottle blix 1 litre mixed today", "poured 200 ml from Banjo into the small jug"];
  const stopped = demo(...jug, "poured 200 ml from Acorn into the small jug");
  expect(stopped.reply.facts.reason).toBe("one-way");
  expect(acorn(stopped)?.contents).toBeUndefined();
  const washed = demo(...jug, "poured 200 ml from Acorn into the small jug", "yes");
  expect(acorn(washed)?.contents).toBe(800);
});

test("nobody knows the date: the day it was mixed here is taken, said, and tested before film", () => {
  const mixed = [
    "mix a litre of developer in the jug",
    "water in",
    "A in",
    "clear",
    "B in",
    "clear",
    "C in",
    "clear",
    "full",
  ];
  const { reply, values } = say(
    "use sheet demo",
    ...mixed,
    "bottle developer 1 litre",
    "I don't know",
  );
  expect(values.date_assumed).toBe(true);
  expect(values.mixed_on).toBe("2026-11-28");
  expect(reply.lines.join(" ")).toContain("when developer was mixed here");
});

test("nobody knows and nothing was written down: it is asked, and at last a year is taken", () => {
  const asked = say("bottle developer 1 litre", "I don't know");
  expect(asked.reply.kind).toBe("question");
  const taken = say("bottle developer 1 litre", "I don't know", "no idea");
  expect(taken.values.mixed_on).toBe("2025-11-28");
  const start = say(
    "bottle developer 1 litre",
    "I don't know",
    "no idea",
    "start developer one roll",
  );
  expect(start.reply.facts.reason).toBe("clip-test-first");
});

test("the earliest plausible day is the day the sheet was taught, when nothing is older", () => {
  const fresh = newRecord("t", "Europe/Lisbon").bench;
  const { values } = hear(
    commands,
    ["use sheet demo", "bottle developer 1 litre", "I don't know"],
    {
      ...fresh,
      taughtOn: { demo: "2026-10-05" },
    },
  );
  expect(values.mixed_on).toBe("2026-10-05");
});

test("an explicit yes beyond capacity starts the run and stands in its record", () => {
  const { record, values } = demo("start developer ten rolls", "yes");
  expect(values.units).toBe(10);
  const [run] = Object.values(record.bench.runs);
  expect(run?.notes[0]?.text).toContain("Beyond capacity, by an explicit yes");
  expect(Object.keys(demo("start developer ten rolls", "no").record.bench.runs)).toEqual([]);
});

test("film of another open run has a claim on what is left", () => {
  expect(demo("start developer six rolls tank north").reply.kind).toBe("reply");
  const second = demo(
    "start developer six rolls tank north",
    "start developer six rolls tank south",
  );
  expect(second.reply.facts.reason).toBe("beyond-capacity");
});

test("a used developer takes longer, by the sheet's rule, and why shows the working", () => {
  const { values } = demo("Acorn has done 4 rolls", "start developer one roll");
  expect(values).toMatchObject({ time_base_s: 205, time_s: 246 });
  expect(values.reuse_s).toBeCloseTo(41, 9);
  const why = demo("Acorn has done 4 rolls", "start developer one roll", "why").reply;
  expect(why.lines.join("\n")).toContain("5 % per roll of the sheet's time, 4 done: 3:25 × 1.2");
});

test("half a batch tires twice as fast", () => {
  const { values } = say(
    "use sheet demo",
    "bottle developer 500 ml mixed today with 2 rolls done",
    "start developer one roll",
  );
  expect(values.reuse_s).toBeCloseTo(41, 9);
});

test("a time the user gives outranks re-use and push", () => {
  const { values } = demo("Acorn has done 4 rolls", "start developer one roll for 5 minutes");
  expect(values.time_s).toBe(300);
  expect(values.reuse_s).toBeUndefined();
});

test("no push rule, no answer: the rules in circulation with their results, and a choice", () => {
  const sheet = ["use sheet colour negative", "start developer one roll pushed one stop"];
  const { reply, values } = say(...sheet);
  expect(reply.kind).toBe("question");
  expect(values.rules).toMatchObject([{ time_s: 225 }, { time_s: 260 }, { time_s: 292.5 }]);
  const chosen = say(...sheet, "thirty seconds");
  expect(chosen.values).toMatchObject({ time_s: 225, push: 1, push_s: 30, time_base_s: 195 });
  expect(chosen.reply.lines.join(" ")).toContain("common practice");
});

test("fixer is judged by its clearing time, against the first that was kept", () => {
  const bw = ["use sheet black and white", "bottle fixer 1 litre mixed today"];
  const fresh = say(...bw, "Acorn cleared in 30 seconds");
  expect(fresh.values).toMatchObject({ passed: true, clearing_s: 30 });
  const used = ["Acorn has done 9 rolls"];
  const spent = say(...bw, "Acorn cleared in 30 seconds", ...used, "Acorn cleared in 62 seconds");
  expect(spent.values).toMatchObject({ passed: false, clearing_s: 62, fresh_s: 30 });
  const asked = say(...bw, ...used, "Acorn cleared in 40 seconds");
  expect(asked.reply.kind).toBe("question");
});

test("a bottle that is retired says where it may go and defers to local rules", () => {
  const { reply, values } = demo("bottle blix 1 litre mixed today", "retire Banjo", "yes", "sewer");
  expect(values.route).toContain("silver recovery");
  expect(reply.lines.join(" ")).toContain("Local codes");
  expect(reply.title).toContain("Cross out the label now");
});
