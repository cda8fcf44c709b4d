import { describe, expect, test } from "vitest";
import { evening, runOf, stageOf } from "../../../test/support/runs.ts";
import { busyBench } from "../../../test/support/understand.ts";
import { loadCommands } from "../../commands/registry.ts";
import type { BenchRecord } from "../../conversation/record.ts";
import { celsius, later } from "../../domain/units/quantity.ts";
import { WAKE_WORD } from "../wake-word.ts";
import { type Judgement, judge, type Spoken, type VoiceThread } from "./judge.ts";

const commands = await loadCommands();

/** A bench where nothing is running or asked, so that nothing is awaited. */
const calm: BenchRecord = { ...busyBench, bench: { ...busyBench.bench, runs: {} } };
/** The same with a developer of 37.8 °C on the plan. */
const warm: BenchRecord = {
  ...busyBench,
  bench: {
    ...busyBench.bench,
    runs: { "run-1": runOf([stageOf({ temperature: celsius(37.8) })]) },
  },
};
const sure = { score: 12, byKey: false };

function hear(
  text: string,
  spoken: Partial<Spoken> = {},
  {
    record = calm,
    thread = {},
    after = 0,
    echo = false,
  }: {
    record?: BenchRecord;
    thread?: VoiceThread;
    after?: number;
    echo?: boolean;
  } = {},
): { thread: VoiceThread; judgement: Judgement } {
  const now = later(evening, after);
  return judge(thread, { ...sure, text, ...spoken }, { record, who: "Ines", now, commands, echo });
}

describe("what only asks is answered at once", () => {
  test.each(["how old is acorn", "what time is it", "how long is the blix", "left", "why"])(
    "%s",
    (text) => {
      expect(hear(text).judgement).toEqual({ kind: "pass", text });
    },
  );
});

describe("what changes something", () => {
  const text = "start developer two rolls tank south";

  test("is done when it begins with the wake word, or the key was held", () => {
    expect(hear(`${WAKE_WORD} ${text}`).judgement).toEqual({ kind: "pass", text });
    expect(hear(text, { byKey: true }).judgement).toEqual({ kind: "pass", text });
  });

  test("is asked about without it, and done on a spoken yes", () => {
    const asked = hear(text);
    expect(asked.judgement).toEqual({
      kind: "ask",
      question: "Start developer two rolls tank south, right?",
    });
    const { thread } = asked;
    const done = { kind: "pass", text, saidAt: evening };
    expect(hear("yes", {}, { thread, after: 6 }).judgement).toEqual(done);
    expect(hear("no", {}, { thread }).judgement).toMatchObject({ kind: "say" });
    expect(hear("again", {}, { thread }).judgement).toMatchObject({ kind: "say" });
  });

  test("is forgotten when the yes comes too late", () => {
    const { thread } = hear(text);
    expect(hear("yes", {}, { thread, after: 20 }).judgement.kind).not.toBe("pass");
  });

  test("is left alone when it was hardly heard", () => {
    expect(hear(text, { score: -8 }).judgement).toEqual({ kind: "ignore" });
  });

  test("needs no wake word where the bench waits for it", () => {
    expect(hear("ready", {}, { record: busyBench }).judgement).toEqual({
      kind: "pass",
      text: "ready",
    });
    expect(hear("ready").judgement.kind).toBe("ask");
  });

  test("needs none where it answers a question", () => {
    const ask = { command: "fill", fields: { bottle: "acorn" }, slot: "fill" };
    const record = { ...calm, threads: { Ines: { pending: { ask, at: evening } } } };
    expect(hear("acorn is half full", {}, { record }).judgement.kind).toBe("pass");
    expect(hear("undo", {}, { record }).judgement.kind).toBe("ask");
  });
});

describe("numbers", () => {
  const reading = (said: string): string => `${WAKE_WORD} temperature ${said}`;

  test("are taken when they are clear and likely", () => {
    expect(hear(reading("thirty seven point four"), {}, { record: warm }).judgement).toEqual({
      kind: "pass",
      text: "temperature thirty seven point four",
    });
  });

  test("are said back when the score is low", () => {
    const low = hear(reading("thirty seven point four"), { score: -4 }, { record: warm });
    expect(low.judgement).toEqual({
      kind: "ask",
      question: "Temperature thirty seven point four, right?",
    });
  });

  test("are said back sooner where there is noise", () => {
    const said = reading("thirty seven point four");
    expect(hear(said, { score: 4, noisy: false }, { record: warm }).judgement.kind).toBe("pass");
    expect(hear(said, { score: 4, noisy: true }, { record: warm }).judgement.kind).toBe("ask");
  });

  test("are said back when the value is unlike the bath", () => {
    const far = hear(reading("thirty one point four"), {}, { record: warm });
    expect(far.judgement).toMatchObject({ kind: "ask" });
  });

  test.each([
    ["mix fifteen litres of developer", "Mix fifteen, one five, litres of developer, right?"],
    ["mix fifty ounces of blix", "Mix fifty, five zero, ounces of blix, right?"],
  ])("%s is spelt out", (text, question) => {
    expect(hear(`${WAKE_WORD} ${text}`).judgement).toEqual({ kind: "ask", question });
  });
});

describe("some words always work", () => {
  test.each(["again", "hold", "trouble", "emergency", "eyes", "i burned my hand"])(
    "%s, with a poor score",
    (text) => {
      expect(hear(text, { score: -3 }).judgement).toEqual({ kind: "pass", text });
    },
  );
});

describe("the wake word", () => {
  test("alone opens the ear for the next words", () => {
    const { thread, judgement } = hear(WAKE_WORD);
    expect(judgement).toEqual({ kind: "say", line: "Yes?" });
    expect(hear("undo", {}, { thread, after: 5 }).judgement).toEqual({
      kind: "pass",
      text: "undo",
    });
    expect(hear("undo", {}, { thread, after: 30 }).judgement.kind).toBe("ask");
  });

  test("is all that is believed while our own voice is in the room", () => {
    expect(hear("left", {}, { echo: true }).judgement).toEqual({ kind: "ignore" });
    expect(hear(`${WAKE_WORD} undo`, {}, { echo: true }).judgement.kind).toBe("pass");
  });

  test("with words that were not understood asks for them again", () => {
    const { judgement } = hear(`${WAKE_WORD} undo`, { score: -40 });
    expect(judgement).toMatchObject({ kind: "say" });
  });
});

test("silence and other talk are left alone, by key they are answered", () => {
  expect(hear("", { score: -99 }).judgement).toEqual({ kind: "ignore" });
  expect(hear("left", { score: -20 }).judgement).toEqual({ kind: "ignore" });
  expect(hear("", { score: -99, byKey: true }).judgement).toMatchObject({ kind: "say" });
});

test("words that make no sentence reach the bench only when they were heard well", () => {
  const said = `${WAKE_WORD} two rolls`;
  expect(hear(said).judgement).toEqual({ kind: "pass", text: "two rolls" });
  expect(hear(said, { score: 2, noisy: true }).judgement).toMatchObject({ kind: "say" });
  expect(hear("two rolls").judgement).toEqual({ kind: "ignore" });
});

test("an answer with a doubtful number is said back before it is taken", () => {
  const ask = { command: "start", fields: {}, slot: "film" };
  const record = { ...calm, threads: { Ines: { pending: { ask, at: evening } } } };
  expect(hear("two rolls", {}, { record }).judgement.kind).toBe("pass");
  expect(hear("fifteen", {}, { record }).judgement).toEqual({
    kind: "ask",
    question: "Fifteen, one five, right?",
  });
});

test("which part went in is always said back: its letter is one vowel among many", () => {
  expect(hear(`${WAKE_WORD} part b is in`).judgement).toEqual({
    kind: "ask",
    question: "Part b is in, right?",
  });
});

test("bottles whose names sound alike are said back", () => {
  const { bottles } = calm.bench;
  const [acorn] = Object.values(bottles);
  const alike = { ...bottles, egghorn: { ...acorn, id: "egghorn", name: "Acorns" } };
  const record = { ...calm, bench: { ...calm.bench, bottles: alike } } as BenchRecord;
  const said = `${WAKE_WORD} acorn is half full`;
  expect(hear(said).judgement.kind).toBe("pass");
  expect(hear(said, {}, { record }).judgement.kind).toBe("ask");
});
