import { describe, expect, test } from "vitest";
import { at, benchWith, evening, runOf, stageOf, washOf } from "../../../../test/support/runs.ts";
import { busyBench } from "../../../../test/support/understand.ts";
import { loadCommands } from "../../../commands/registry.ts";
import { type BenchRecord, newRecord } from "../../../conversation/record.ts";
import { settleByClock } from "../../../conversation/settle-runs.ts";
import { type Message, openQuestion, turn } from "../../../conversation/turn.ts";
import { decide } from "../../../domain/session/decide.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import type { Reply } from "../../../reply/reply.ts";
import { customId } from "./custom-id.ts";
import type { MessagePayload } from "./message-payload.ts";
import { type Meant, readPress } from "./read-press.ts";
import { renderReply } from "./render-reply.ts";
import { statusMessage } from "./status-message.ts";

const commands = await loadCommands();
const benchKey = "100000000000000001";
const who = "Ines";

type Spoken = { readonly record: BenchRecord; readonly reply: Reply };
type Words = { readonly text: string } | { readonly command: string; readonly fields: object };

const say = (record: BenchRecord, words: Words, now: Instant, by = who): Spoken =>
  turn(record, { who: by, ...words } as Message, now, commands);

/** The clock moves a bench on. */
const passed = (record: BenchRecord, now: Instant): BenchRecord => ({
  ...record,
  bench: settleByClock(decide(record.bench, now).bench, now).bench,
});

const shown = ({ record, reply }: Spoken, now: Instant, by = who): readonly MessagePayload[] =>
  renderReply(reply, {
    bench: record.bench,
    benchKey,
    mode: record.bench.mode,
    now,
    question: openQuestion(record, by, now),
  });

/** Buttons by what is written on them. */
const buttonsOf = (messages: readonly MessagePayload[]): Readonly<Record<string, string>> =>
  Object.fromEntries(
    messages.flatMap(({ components }) =>
      components.flatMap((row) =>
        row.components.map((one) =>
          "custom_id" in one && "label" in one ? [one.label, one.custom_id] : [],
        ),
      ),
    ),
  );

const press = (id: string | undefined, record: BenchRecord, now: Instant, by = who): Meant =>
  readPress(id ?? "", { benchKey, record, who: by, now });

const reasonOf = (meant: Meant): unknown =>
  "refusal" in meant ? meant.refusal.facts.reason : "none";

const started: BenchRecord = {
  ...newRecord("test", "Europe/Lisbon"),
  bench: benchWith(runOf([stageOf(), washOf()])),
};
const status = (record: BenchRecord, now: Instant) => {
  const run = record.bench.runs["run-1"];
  if (run === undefined) throw new Error("no run");
  return buttonsOf([statusMessage(run, now, { bench: record.bench, benchKey })]);
};
const done = (meant: Meant): Words => {
  if ("refusal" in meant || "form" in meant) throw new Error("nothing to say");
  return meant;
};

describe("at the sink", () => {
  test("what each moment wants has a button, in two rows at most", () => {
    expect(Object.keys(status(started, at(0)))).toEqual([
      "ready",
      "next",
      "again",
      "wait",
      "trouble",
    ]);
    const pouring = passed(started, at(31));
    expect(Object.keys(status(pouring, at(31)))).toEqual([
      "in",
      "next",
      "again",
      "wait",
      "trouble",
    ]);
    const { record } = say(pouring, { text: "in" }, at(40));
    expect(Object.keys(status(record, at(41)))).toEqual([
      "out",
      "next",
      "again",
      "hold",
      "trouble",
    ]);
  });

  test("in, pressed, is in said; pressed twice it is in already", () => {
    const pouring = passed(started, at(31));
    const id = status(pouring, at(31)).in;
    const meant = press(id, pouring, at(40));
    expect(meant).toEqual({ command: "in", fields: { tank: "North" } });
    const { record, reply } = say(pouring, done(meant), at(40));
    expect(reply.title).toContain("developer in at");
    const again = say(record, done(press(id, record, at(41))), at(41));
    expect(again.reply.facts.reason).toBe("already-in");
    expect(again.record.bench).toBe(record.bench);
  });

  test("next, pressed twice by a wet finger, is one step and not two", () => {
    const pouring = passed(started, at(31));
    const id = status(pouring, at(31)).next;
    const { record } = say(pouring, done(press(id, pouring, at(40))), at(40));
    expect(reasonOf(press(id, record, at(41)))).toBe("old-button");
  });

  test("in still counts where the clock has assumed the pour", () => {
    const pouring = passed(started, at(31));
    const id = status(pouring, at(31)).in;
    const assumed = passed(pouring, at(80));
    expect(press(id, assumed, at(80))).toEqual({ command: "in", fields: { tank: "North" } });
  });

  test("asked whether it is in, yes takes the middle of the pour", () => {
    const pouring = passed(started, at(55));
    const { yes } = status(pouring, at(55));
    expect(press(yes, pouring, at(56))).toEqual({ command: "yes", fields: {} });
    const { record, reply } = say(pouring, done(press(yes, pouring, at(56))), at(56));
    expect(reply.title).toContain("the middle of the pour");
    expect(reasonOf(press(yes, record, at(57)))).toBe("old-button");
  });

  test("out of the bath before never empties the next one", () => {
    const { record } = say(passed(started, at(31)), { text: "in" }, at(40));
    const id = status(record, at(41)).out;
    const out = say(record, done(press(id, record, at(235))), at(235)).record;
    const wet = say(out, { text: "in" }, at(250)).record;
    expect(reasonOf(press(id, wet, at(260)))).toBe("old-button");
  });

  test("out is still news where only the clock ended the bath", () => {
    const { record } = say(passed(started, at(31)), { text: "in" }, at(40));
    const id = status(record, at(41)).out;
    const moved = passed(record, at(240));
    expect(moved.bench.runs["run-1"]?.current).toBe(1);
    expect(press(id, moved, at(242))).toEqual({ command: "out", fields: { tank: "North" } });
  });

  test("a run that is over has no buttons, and those of before change nothing", () => {
    const id = status(started, at(0)).ready;
    const stopped = say(
      say(started, { text: "stop" }, at(1)).record,
      { text: "yes" },
      at(2),
    ).record;
    expect(stopped.bench.runs["run-1"]?.endedAt).toBeDefined();
    expect(status(stopped, at(3))).toEqual({});
    expect(reasonOf(press(id, stopped, at(3)))).toBe("old-button");
  });

  test("hold silences, the same place then undoes it, and before a pour it is wait", () => {
    const { wait } = status(started, at(0));
    const waiting = say(started, done(press(wait, started, at(1))), at(1)).record;
    expect(Object.keys(status(waiting, at(2)))).toEqual(["ready", "next", "again", "trouble"]);
    const { record: wet } = say(passed(started, at(31)), { text: "in" }, at(40));
    const { hold } = status(wet, at(41));
    const quiet = say(wet, done(press(hold, wet, at(42))), at(42)).record;
    expect(quiet.bench.runs["run-1"]?.quiet).toBe(true);
    const { "go on": goOn } = status(quiet, at(43));
    const loud = say(quiet, done(press(goOn, quiet, at(44))), at(44)).record;
    expect(loud.bench.runs["run-1"]?.quiet).toBe(false);
    expect(reasonOf(press(hold, waiting, at(45)))).toBe("old-button");
  });

  test("with two tanks each button names its own", () => {
    const other = { ...runOf([stageOf()], { tank: "South" }), id: "run-2" };
    const two = { ...started, bench: benchWith(runOf([stageOf()]), other) };
    const messages = shown(say(two, { text: "left" }, at(1)), at(1));
    expect(Object.keys(buttonsOf(messages))).toEqual([
      "North: ready",
      "South: ready",
      "again",
      "trouble",
    ]);
    const meant = press(buttonsOf(messages)["South: ready"], two, at(2));
    expect(meant).toEqual({ command: "ready", fields: { tank: "South" } });
  });
});

describe("the answers to a question", () => {
  const asked = say(busyBench, { text: "retire Acorn" }, at(1));
  const buttons = buttonsOf(shown(asked, at(1)));

  test("are its buttons, and pressing one answers it", () => {
    expect(asked.reply.kind).toBe("question");
    const [first] = Object.values(buttons);
    const { reply } = say(asked.record, done(press(first, asked.record, at(5))), at(5));
    expect(reply.facts.reason).not.toBe("no-question");
  });

  test("are not open to anybody else", () => {
    const [first] = Object.values(buttons);
    expect(reasonOf(press(first, asked.record, at(5), "Rui"))).toBe("old-question");
  });

  test("are closed once it was answered, cancelled, asked anew or let lie", () => {
    const [first] = Object.values(buttons);
    const cancelled = say(asked.record, { text: "cancel" }, at(5)).record;
    const anew = say(asked.record, { text: "retire Acorn" }, at(6)).record;
    expect(reasonOf(press(first, cancelled, at(7)))).toBe("old-question");
    expect(reasonOf(press(first, anew, at(7)))).toBe("old-question");
    expect(reasonOf(press(first, asked.record, at(200)))).toBe("old-question");
  });

  test("a unit answered by a button is kept, as if it had been said", () => {
    const { country: _, ...bench } = busyBench.bench;
    const record = { ...busyBench, bench };
    const quart = say(record, { text: "how much water for a quart of developer" }, at(1));
    const us = buttonsOf(shown(quart, at(1))).us;
    const told = say(quart.record, done(press(us, quart.record, at(3))), at(3));
    expect(told.reply.title).toContain("946 mL of developer");
    expect(told.record.bench.country).toBe("us");
  });

  test("did you mean: yes does it", () => {
    const slip = say(busyBench, { text: "bottels" }, at(1));
    expect(slip.reply.title).toContain("Did you mean");
    const { yes } = buttonsOf(shown(slip, at(1)));
    expect(say(slip.record, done(press(yes, slip.record, at(2))), at(2)).reply.title).toContain(
      "bottles",
    );
  });

  test("every trouble can be answered by buttons, down to its verdict", () => {
    const trouble = say(started, { text: "trouble" }, at(1));
    for (const id of Object.values(buttonsOf(shown(trouble, at(1))))) {
      const second = say(trouble.record, done(press(id, trouble.record, at(2))), at(2));
      for (const detail of Object.values(buttonsOf(shown(second, at(2))))) {
        const verdict = say(second.record, done(press(detail, second.record, at(3))), at(3));
        expect(verdict.reply.kind).toBe("reply");
      }
    }
  });
});

describe("what is no button of this bench now", () => {
  const ready = status(started, at(0)).ready ?? "";

  test.each([
    ["nothing of ours", "join:42", "not-our-button"],
    ["one sign changed", `${ready.slice(0, -1)}!`, "not-our-button"],
    [
      "another bench's",
      customId.make({ bench: "2", word: "in", asked: "run-1.0.w" }),
      "other-bench",
    ],
    [
      "made up",
      customId.make({ bench: benchKey, word: "set", asked: "run-1.0.w" }),
      "not-our-button",
    ],
    [
      "made up, of the language",
      customId.make({ bench: benchKey, word: "constructor", asked: "run-1.0.w" }),
      "not-our-button",
    ],
    [
      "of a run there is not",
      customId.make({ bench: benchKey, word: "in", asked: "__proto__.0.w" }),
      "old-button",
    ],
    ["of no moment", customId.make({ bench: benchKey, word: "in" }), "not-our-button"],
    [
      "of no question",
      customId.make({ bench: benchKey, word: "o3", asked: "q1-x" }),
      "old-question",
    ],
    [
      "of no reminder",
      customId.make({ bench: benchKey, word: "done", asked: "constructor.1" }),
      "no-such-reminder",
    ],
    ["of no sheet", customId.make({ bench: benchKey, word: "form", asked: "x" }), "old-form"],
    [
      "of no day",
      customId.make({ bench: benchKey, word: "snooze-daily", asked: "2026-11-01" }),
      "old-button",
    ],
  ])("%s", (_, id, reason) => {
    expect(reasonOf(press(id, started, evening))).toBe(reason);
  });
});
