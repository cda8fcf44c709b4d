import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import type { Bottle } from "../../src/domain/chemistry/bottle.ts";
import { dayOfNumber } from "../../src/domain/reminders/calendar.ts";
import { noLooks } from "../../src/domain/reminders/looks.ts";
import { noticesOf } from "../../src/domain/reminders/notices.ts";
import { type Heard, hear } from "../support/hear.ts";

const commands = await loadCommands();
const say = (...sentences: string[]): Heard => hear(commands, sentences);
/** Acorn holds developer, Banjo blix, Cactus developer. */
const demo = (...sentences: string[]): Heard =>
  say(
    "use sheet demo",
    "bottle developer 1 litre mixed today",
    "bottle blix 1 litre mixed today",
    "bottle developer 500 ml mixed today",
    ...sentences,
  );
const called = ({ record }: Heard, name: string): Bottle | undefined =>
  Object.values(record.bench.bottles).find((bottle) => bottle.name === name);
const text = ({ reply }: Heard): string => [reply.title, ...reply.lines].join("\n");

test("blix is out and developer is named: a loud stop, and only a plausible answer goes on", () => {
  const out = ["poured 500 ml from Banjo", "back in Acorn"];
  const asked = demo(...out);
  expect(asked.reply.title).toMatch(/^STOP/);
  expect(asked.reply.kind).toBe("question");
  expect(asked.reply.say.split(/\s+/).length).toBeLessThanOrEqual(12);
  for (const said of ["Acorn", "yes", "Banjo", "blix", "the blix from Banjo"]) {
    const heard = demo(...out, said, "Acorn");
    expect(heard.record.bench.bottles).toEqual(demo(out[0] ?? "").record.bench.bottles);
  }
  expect(demo(...out, "blix").reply.facts.reason).toBe("one-way");
  expect(demo(...out, "Banjo").reply.facts.reason).toBe("one-way");
  expect(demo(...out, "stabilizer").reply.kind).toBe("refusal");
  const went = demo(...out, "developer", "Acorn");
  expect(went.reply.title).toMatch(/^Acorn it is/);
});

test("a developer out of another bottle is not taken for this one's", () => {
  const asked = demo("poured 200 ml from Cactus", "back in Acorn");
  expect(asked.reply.title).toMatch(/^STOP/);
  const other = demo("poured 200 ml from Cactus", "back in Acorn", "Cactus");
  expect(other.reply.facts.reason).toBe("wrong-bottle");
});

test("both are out: the developer bottle still asks what is in the jug", () => {
  const both = ["poured 500 ml from Banjo", "poured 300 ml from Acorn", "back in Acorn"];
  expect(demo(...both).reply.title).toMatch(/^STOP/);
  expect(demo(...both, "developer", "Acorn").reply.title).toMatch(/^Acorn it is/);
  // Into the blix the developer that is out does no such harm; its name is asked as ever.
  expect(demo(...both.slice(0, 2), "back in Banjo").reply.title).toMatch(/^Before it goes back/);
});

test("after a stop for the wrong bottle, the right name alone goes on", () => {
  const wrong = ["poured 300 ml from Acorn", "back in Acorn", "Banjo"];
  expect(demo(...wrong).reply.kind).toBe("refusal");
  const went = demo(...wrong, "Acorn");
  expect(went.reply.title).toMatch(/^Acorn it is/);
  expect(called(went, "Acorn")?.contents).toBe(1000);
  expect(demo(...wrong, "Banjo").reply.facts.reason).toBe("wrong-bottle");
});

test("a passed test is good for today, and the doubt stays for the plan", () => {
  const old = ["use sheet demo", "bottle developer 1 litre mixed 3 october"];
  const passed = say(...old, "clip test Acorn passed");
  expect(text(passed)).toContain("Tested: good for today");
  expect(say(...old, "clip test Acorn passed", "start developer one roll").reply.kind).toBe(
    "reply",
  );
  const planned = say(
    ...old,
    "clip test Acorn passed",
    "tank north takes two rolls, 500 ml a roll",
    "add two 135 marked c-41 important",
    "add a 135 marked c-41",
    "how is Acorn",
  );
  expect(planned.reply.facts.state).toBe("past limit");
  expect(text(planned)).toContain("Tested 28 November 2026");
});

test("a strip does not prove a contaminated bottle clean: only trust takes the mark off", () => {
  const foul = ["blix went into Acorn", "clip test Acorn passed"];
  const passed = demo(...foul);
  expect(text(passed)).not.toContain("ood for today");
  expect(text(passed)).toMatch(/does not prove/);
  expect(called(passed, "Acorn")?.suspect).toBeDefined();
  expect(demo(...foul, "start developer one roll from Acorn").reply.kind).toBe("refusal");
  const trusted = demo(...foul, "trust Acorn", "yes");
  expect(called(trusted, "Acorn")?.suspect).toBeUndefined();
  // A look that a test decides is settled by it.
  const looked = demo("Acorn looks dark", "clip test Acorn passed");
  expect(called(looked, "Acorn")?.suspect).toBeUndefined();
});

test.each([
  ["quiet from 8:00 to 10:00", "08:00 to 10:00"],
  ["quiet from 1:00 to 6:00", "01:00 to 06:00"],
  ["quiet from 7:00 to 9:00", "07:00 to 09:00"],
  ["quiet from 08 to 17", "08:00 to 17:00"],
  ["quiet from 9 pm to 7 am", "21:00 to 07:00"],
  ["no messages between 22:30 and 7:15", "22:30 to 07:15"],
])("%j: %s", (said, quiet) => {
  const { reply } = say(said);
  expect(reply.title).toBe(`Quiet from ${quiet}.`);
  expect(reply.facts.quiet).toBe(quiet);
});

test("quiet hours that leave morning or evening open are asked, one end after the other", () => {
  const asked = say("quiet from 8 to 10");
  expect(asked.reply.kind).toBe("question");
  expect(asked.reply.title).toContain("08:00");
  expect(asked.reply.title).toContain("20:00");
  expect(asked.record.bench.daily.quietFrom).toBe(22 * 60);
  expect(say("quiet from 8 to 10", "evening").reply.kind).toBe("question");
  const set = say("quiet from 8 to 10", "evening", "10:00 in the morning");
  expect(set.reply.title).toBe("Quiet from 20:00 to 10:00.");
});

test.each([
  [["clip test Acorn failed"]],
  [["Acorn is suspect"]],
  [["blix went into Acorn", "clip test Acorn passed"]],
])("after %j Acorn is not recommended and not taken by itself", (sentences) => {
  const which = demo(...sentences, "which bottle for developer");
  expect(which.values.bottle).toBe("Cactus");
  const started = demo(...sentences, "start developer one roll");
  expect(started.values.bottles).toMatchObject({ developer: "Cactus" });
  const alone = ["use sheet demo", "bottle developer 1 litre mixed today", ...sentences];
  const none = say(...alone, "which bottle for developer");
  expect(none.reply.title).not.toMatch(/take/i);
  expect(none.reply.kind).toBe("refusal");
  const can = say(...alone, "can I do one 120");
  expect(can.values.can).not.toBe(true);
});

test("a bottle past its limit is not recommended either, before it was tested", () => {
  const old = ["use sheet demo", "bottle developer 1 litre mixed 3 october"];
  expect(say(...old, "which bottle for developer").reply.kind).toBe("refusal");
  const fresh = [...old, "bottle developer 1 litre mixed today"];
  expect(say(...fresh, "which bottle for developer").values.bottle).toBe("Banjo");
  const started = say(...fresh, "start developer one roll");
  expect(started.values.bottles).toMatchObject({ developer: "Banjo" });
});

test("a bottle that failed its test is stopped loudly; yes is logged; trust takes it off", () => {
  const failed = ["clip test Acorn failed", "start developer one roll from Acorn"];
  const stopped = demo(...failed);
  expect(stopped.reply.kind).toBe("refusal");
  expect(stopped.reply.title).toMatch(/^STOP/);
  const insisted = demo(...failed, "yes");
  const [run] = Object.values(insisted.record.bench.runs);
  expect(run?.notes.some(({ text: note }) => note.includes("failed"))).toBe(true);
  const trusted = demo("clip test Acorn failed", "trust Acorn", "yes");
  expect(trusted.reply.title).toContain("no longer suspect");
  const after = demo(
    "clip test Acorn failed",
    "trust Acorn",
    "yes",
    "start developer one roll from Acorn",
  );
  expect(after.reply.kind).toBe("reply");
});

test.each([
  ["Banjo went into Acorn", "Acorn"],
  ["Acorn got contaminated", "Acorn"],
  ["Acorn is contaminated", "Acorn"],
  ["something is wrong with Acorn", "Acorn"],
  ["I poured the blix back into the developer", "Acorn"],
  ["I poured blix into the developer", "Acorn"],
])("%j makes %s suspect", (said, name) => {
  const { record, reply } = say(
    "use sheet demo",
    "bottle developer 1 litre mixed today",
    "bottle blix 1 litre mixed today",
    said,
  );
  expect(reply.title).toContain("SUSPECT");
  expect(
    Object.values(record.bench.bottles).find((one) => one.name === name)?.suspect,
  ).toBeDefined();
});

test("where two hold developer, the one that was spoilt is asked for", () => {
  const asked = demo("I poured the blix back into the developer");
  expect(asked.reply.kind).toBe("question");
  expect(
    called(demo("I poured the blix back into the developer", "Cactus"), "Cactus")?.suspect,
  ).toMatchObject({ contaminated: true });
});

const run = ["start developer two rolls from Acorn", "in", "out", "yes"];

test("an unconfirmed count stays within reach when a later run is cancelled", () => {
  const left = [...run, "start blix one roll", "stop"];
  expect(text(demo(...left, "how many rolls are left in Acorn"))).toContain("Unconfirmed: 2 units");
  for (const said of ["count is right", "Acorn's count is right", "the count of Acorn is right"]) {
    const confirmed = demo(...left, said);
    expect(confirmed.reply.facts.bottles).toEqual(["Acorn"]);
    const runs = Object.values(confirmed.record.bench.runs);
    expect(
      runs.filter(({ counted, countConfirmed }) => counted.length > 0 && !countConfirmed),
    ).toEqual([]);
  }
  const other = demo(...left, "Cactus's count is right");
  expect(other.reply.kind).toBe("refusal");
});

test.each(["our drain is septic", "septic", "we have a septic tank", "it is septic"])(
  "retired at once, and %j closes the record",
  (said) => {
    const asked = demo("retire Acorn", "yes");
    expect(called(asked, "Acorn")?.retiredOn).toBe("2026-11-28");
    expect(asked.reply.kind).toBe("question");
    expect(asked.reply.title).toContain("Cross out the label now");
    const closed = demo("retire Acorn", "yes", said);
    expect(called(closed, "Acorn")?.retired?.route).toContain("septic");
    expect(text(closed)).toContain("Septic");
  },
);

test("decanting to a smaller bottle keeps what is in it; topping up is asked", () => {
  const pine = [
    "bottle developer 500 ml mixed today half full called Pine",
    "poured 200 ml from Pine",
    "nothing back in Pine",
  ];
  const full = say(...pine, "Pine is full");
  expect(full.reply.title).toContain("300 mL");
  expect(text(full)).toContain("smaller bottle");
  const [bottle] = Object.values(full.record.bench.bottles);
  expect(bottle).toMatchObject({ contents: 300, size: 300 });
  expect(bottle?.fills?.at(-1)?.fill).toBe("full");
  const topped = say(...pine, "Pine is topped up");
  expect(topped.reply.kind).toBe("question");
  const [after] = Object.values(say(...pine, "topped up Pine", "yes").record.bench.bottles);
  expect(after?.contents).toBe(1000);
  const half = say(...pine, "Pine is half full");
  expect(Object.values(half.record.bench.bottles)[0]?.contents).toBe(300);
});

test("what comes back into a bottle that was called full meanwhile is not lost", () => {
  const back = say(
    "bottle developer 500 ml mixed today called Pine",
    "poured 200 ml from Pine",
    "Pine is full",
    "back in Pine",
    "Pine",
  );
  expect(Object.values(back.record.bench.bottles)[0]?.contents).toBe(500);
});

test("bottles shows both clocks of every bottle, which governs, and the due date", () => {
  const { reply, values } = demo("Acorn has done 4 rolls", "bottles");
  const shown = [reply.title, ...reply.lines].join("\n");
  for (const part of ["good to 31 December 2026", "33 days left", "5 units left", "governs"])
    expect(shown).toContain(part);
  expect(values.bottles).toMatchObject([
    { bottle: "Acorn", due: "2026-12-31", days_left: 33, units_left: 5, governs: "film" },
    { bottle: "Banjo" },
    { bottle: "Cactus" },
  ]);
});

test("by whom it was mixed is kept and stands on the label, with the last good day", () => {
  const { reply, record } = say(
    "use sheet demo",
    "bottle developer 500 ml mixed yesterday by Ana half full",
  );
  expect(Object.values(record.bench.bottles)[0]).toMatchObject({
    by: "Ana",
    fills: [{ fill: "half" }],
  });
  expect(reply.lines.join("\n")).toMatch(/by Ana/);
  const fresh = demo("bottle developer 250 ml mixed today").reply;
  expect(fresh.lines.join("\n")).toContain("good to 31 December 2026");
  expect(fresh.lines.join("\n")).toContain("not after 31 December 2026");
});

test("a bottle whose limits nobody knows is not called fresh", () => {
  const { reply } = say("opened toner concentrate 500 ml today", "how is Acorn");
  const known = say("opened fixer concentrate 500 ml today", "how is Acorn");
  const heard = reply.facts.state === undefined ? known : { reply };
  expect(heard.reply.facts.state).toBe("no limit known");
  expect(heard.reply.lines.join("\n")).not.toContain("State: fresh");
});

test.each([
  ["when does Acorn expire", "31 December 2026"],
  ["when does Acorn run out", "31 December 2026"],
  ["is Acorn ok", "Acorn"],
  ["Acorn is empty", "Retire Acorn"],
  ["dump Acorn", "Retire Acorn"],
  ["return it to Acorn", "Before it goes back"],
])("%j: %s", (said, part) => {
  expect(text(demo(said))).toContain(part);
});

test("I mixed a litre of developer today puts a bottle up", () => {
  const heard = say("use sheet demo", "I mixed a litre of developer today");
  expect(Object.values(heard.record.bench.bottles)).toMatchObject([
    { bath: "developer", volume: 1000, mixedOn: "2026-11-28" },
  ]);
});

test("a weekend is two days: which one is asked", () => {
  const asked = say("bottle developer 1 litre mixed last weekend");
  expect(asked.reply.kind).toBe("question");
  expect(asked.reply.title).toContain("21 November 2026");
  expect(asked.reply.title).toContain("22 November 2026");
});

test("unknown date is said with the bottle", () => {
  const asked = say("bottle developer 1 litre unknown date");
  expect(asked.reply.title).toContain("not mixed before when");
});

test("a retired bottle's name is remembered", () => {
  for (const said of ["how is Acorn", "start developer from Acorn", "poured 100 ml from Acorn"]) {
    const { reply } = demo("our drain is septic", "retire Acorn", "yes", said);
    expect(reply.facts.reason).toBe("retired");
    expect(reply.title).toContain("Acorn was retired on 28 November 2026");
  }
});

test("recall the thermometer names it once and lists what named none", () => {
  const { reply } = demo(...run.slice(0, 2), "temperature 38.2", "recall the thermometer");
  expect(reply.title).toBe("Recall: the thermometer");
  expect(reply.say).not.toContain("the the");
  expect(reply.lines.join("\n")).toContain("Touched 1 run");
});

test("a thermometer that was read and never checked is spoken of every month", () => {
  const { bench } = demo(...run.slice(0, 2), "temperature 38.2").record;
  const on = (day: string) =>
    noticesOf(bench, Temporal.PlainDate.from(day), noLooks).filter(
      ({ kind, from }) => kind === "thermometer" && dayOfNumber(from).toString() <= day,
    );
  expect(on("2026-11-28").map(({ key }) => key)).toEqual(["thermometer:unchecked:0"]);
  expect(on("2026-12-27").map(({ key }) => key)).toEqual(["thermometer:unchecked:0"]);
  expect(on("2026-12-28").map(({ key }) => key)).toEqual(["thermometer:unchecked:1"]);
  const checked = demo(...run.slice(0, 2), "temperature 38.2", "I checked the thermometer");
  expect(
    noticesOf(checked.record.bench, Temporal.PlainDate.from("2026-12-28"), noLooks).filter(
      ({ key }) => key.includes("unchecked"),
    ),
  ).toEqual([]);
  expect(
    noticesOf(demo().record.bench, Temporal.PlainDate.from("2026-12-28"), noLooks).filter(
      ({ kind }) => kind === "thermometer",
    ),
  ).toEqual([]);
});
