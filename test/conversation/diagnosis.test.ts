import { describe, expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { newRecord, recordSchema } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { archiveOldRuns } from "../../src/domain/session/archive.ts";
import type { Bench } from "../../src/domain/session/bench.ts";
import { celsius, instant, later } from "../../src/domain/units/quantity.ts";
import { benchAfter, type Trouble } from "../support/fault-bench.ts";
import { type Heard, hear } from "../support/hear.ts";
import { at, evening } from "../support/runs.ts";

const commands = await loadCommands();
const red = (name: string) => ({
  at: at(60),
  stage: 0,
  bath: "developer",
  temperature: celsius(36),
  thermometer: name,
});
/** "enough" ends the questions, where there are any left; then come the sentences behind it. */
function told(sentences: readonly string[], bench: Partial<Bench>): Heard {
  const kept: string[] = [];
  for (const sentence of sentences) {
    const asks = sentence !== "enough" || hear(commands, kept, bench).reply.kind === "question";
    if (asks) kept.push(sentence);
  }
  return hear(commands, kept, bench);
}

const said = (trouble: Trouble, ...sentences: readonly string[]): Heard =>
  told(sentences, benchAfter("C-41", trouble));
const causesIn = (values: Record<string, unknown>): readonly string[] =>
  (values.causes as readonly { readonly cause: string }[]).map(({ cause }) => cause);

test("a bath alone is no cause: what is in front is told, and nothing is logged", () => {
  const { reply, record } = said({}, "the negatives are thin", "enough", "it was the developer");
  expect(reply.facts.reason).toBe("which-cause");
  expect(reply.title).toContain("1 ");
  expect(record.bench.diagnoses?.at(-1)?.proved).toBeUndefined();
});

describe("one question at a time", () => {
  test("begins with what needs no chemicals, and offers not to know", () => {
    const { reply } = said({}, "the negatives are thin");
    expect(reply.kind).toBe("question");
    expect(reply.facts.question).toBe("numbers");
    expect(reply.ask?.options?.map(({ word }) => word)).toEqual([
      "crisp",
      "faint",
      "missing",
      "don't know",
    ]);
  });

  test("what was told with the symptom is not asked again", () => {
    const { reply } = said({}, "thin negatives with faint edge numbers");
    expect(reply.facts.question).not.toBe("numbers");
    expect(reply.facts.given).toEqual({ numbers: "faint" });
  });

  test("what the first look has answered is not asked again, and what is said now outranks it", () => {
    const looked: Trouble = { run: { firstLook: { at: at(9000), edgeNumbers: "faint" } } };
    const asked = said(looked, "the negatives are thin").reply.facts;
    expect(asked.given).toEqual({ numbers: "faint" });
    expect(asked.question).not.toBe("numbers");
    const now = said(looked, "the negatives are thin with crisp edge numbers").reply.facts;
    expect(now.given).toMatchObject({ numbers: "crisp" });
  });

  test("not knowing goes on, and enough ends it", () => {
    const { reply } = said({}, "the negatives are thin", "I don't know", "enough");
    expect(reply.kind).toBe("reply");
    expect(reply.facts.given).toEqual({ numbers: "unknown" });
  });

  test("an answer that is none is asked again, and the question stays", () => {
    const { reply, values } = said({}, "the negatives are thin", "purple", "faint");
    expect(reply.kind).toBe("question");
    expect(values.given).toEqual({ numbers: "faint" });
  });

  test("another command goes first, and the search is gone on with", () => {
    const { values } = said(
      {},
      "the negatives are thin",
      "faint",
      "bottles",
      "go on with the diagnosis",
    );
    expect(values.given).toEqual({ numbers: "faint" });
  });

  test("what went wrong asks what is seen, and hears it in plain words", () => {
    const { values } = said({}, "what went wrong", "they came out milky");
    expect(values.symptoms).toEqual(["milky"]);
  });

  test("a symptom can be picked from the list", () => {
    expect(said({}, "what went wrong", "streaks").values.symptoms).toEqual(["streaks"]);
  });
});

describe("the log has its say", () => {
  test("a cold reading stands in the answer with its figures, and in front", () => {
    const { reply, values } = said(
      { read: { 0: 36 } },
      "thin negatives, edge numbers faint",
      "enough",
    );
    expect(causesIn(values)[0]).toBe("cold-developer");
    expect(reply.lines.join(" ")).toContain("36 °C read, 38.2 °C ±0.2 planned [log]");
    expect(values.tank).toBe("North");
  });

  test("with no run at all the answer says that it is the table alone", () => {
    const { reply, values } = told(["film is milky", "enough"], {});
    expect(values.run).toBeNull();
    expect(reply.lines.join(" ")).toContain("no log");
  });

  test("another film than the bench knows is not judged by its log", () => {
    const bench = benchAfter("C-41", { read: { 0: 36 } });
    const [run] = Object.values(bench.runs);
    if (run === undefined) throw new Error("no run");
    const two = {
      ...bench,
      runs: { ...bench.runs, "run-2": { ...run, id: "run-2", tank: "South" } },
    };
    const from = (tank: string) => told(["thin negatives", tank, "enough"], two).values.run;
    expect(from("another film")).toBeNull();
    expect(from("tank south")).toBe("run-2");
    expect(from("not sure")).toBeNull();
  });

  test("a roll leads to its run", () => {
    expect(said({}, "roll 1 is milky", "enough").values.run).toBe("run-1");
  });

  test("a silver roll that no run knows is spared what only colour has", () => {
    const sayings = [
      "add a roll of 135-36 marked black and white called pier",
      "pier has a yellow stain",
      "enough",
    ];
    const pier = causesIn(told(sayings, {}).values);
    expect(pier).toContain("fixer-spent");
    expect(pier).not.toContain("bleach-short");
    expect(causesIn(told(["yellow stain", "enough"], {}).values)).toContain("bleach-short");
    expect(
      causesIn(told(["my black and white film has a yellow stain", "enough"], {}).values),
    ).toEqual(pier);
  });

  test("a rehearsal is no evidence, nor is a run whose film never went in", () => {
    expect(
      said({ run: { rehearsal: { speed: 5 } } }, "film is milky", "enough").values.run,
    ).toBeNull();
    expect(said({ run: { nothingIn: true } }, "film is milky", "enough").values.run).toBeNull();
  });

  test("why shows what makes up the points", () => {
    const { reply } = said(
      { read: { 0: 36 } },
      "thin negatives, edge numbers faint",
      "enough",
      "why",
    );
    expect(reply.lines.join("\n")).toMatch(
      /\+4 table[\s\S]*\+2 answer[\s\S]*\+6 log: developer: 36 °C read/,
    );
  });

  test("a run in a file of its own is judged as well", () => {
    const full = benchAfter("C-41", { read: { 0: 36 } });
    const [run] = Object.values(full.runs);
    if (run === undefined) throw new Error("no run");
    const many = Object.fromEntries(
      Array.from({ length: 9 }, (_, index) => {
        const id = `run-${index + 2}`;
        const plannedAt = later(run.plannedAt, (index + 1) * 86_400);
        return [
          id,
          { ...run, id, tank: "South", plannedAt, endedAt: later(plannedAt, 900) },
        ] as const;
      }),
    );
    const { bench, runs } = archiveOldRuns({ ...full, runs: { ...full.runs, ...many } });
    expect(bench.runs["run-1"]).toBeUndefined();
    const past = { runs, damaged: [] };
    let record = { ...newRecord("t", "Europe/Lisbon"), bench };
    let reply: ReturnType<typeof turn>["reply"] | undefined;
    for (const text of [
      "what went wrong with run 1",
      "thin, edge numbers faint",
      "enough",
      "it was the thermometer",
    ]) {
      const next = turn(record, { text, who: "Ines" }, at(7200), commands, past);
      record = next.record;
      reply = next.reply;
    }
    expect(record.bench.diagnoses?.at(-1)).toMatchObject({
      run: "run-1",
      tank: "North",
      proved: { cause: "thermometer-off", culprit: { kind: "thermometer", id: "red" } },
    });
    expect(reply?.title).toContain("The red thermometer is SUSPECT");
    expect(reply?.lines.join("\n")).toMatch(/Touched \d+ runs/);
  });
});

describe("when a cause proves true", () => {
  const thin = ["thin negatives, edge numbers faint", "enough"];

  test("the bottle is set apart, the run keeps it, and the recall list follows", () => {
    const { reply, record, values } = said(
      { done: [10, 5], read: { 0: 38.2 } },
      ...thin,
      "it was the bottle",
    );
    expect(values).toMatchObject({ cause: "dead-developer", what: "bottle", name: "Acorn" });
    expect(record.bench.bottles.acorn?.suspect?.why).toContain("given out");
    expect(record.bench.runs["run-1"]?.notes.at(-1)?.text).toContain(
      "it proved that the developer had given out (Acorn)",
    );
    expect(reply.lines.join("\n")).toContain("Touched 1 run");
  });

  test("a number is its place in the ranking", () => {
    const { values } = said({ read: { 0: 36 } }, ...thin, "confirmed 1");
    expect(values).toMatchObject({ cause: "cold-developer", what: null });
  });

  test("a contaminated bottle stays marked as such", () => {
    const { record } = said({}, ...thin, "it was contamination");
    expect(record.bench.bottles.acorn?.suspect?.contaminated).toBe(true);
  });

  test("a bottle by its name is the cause it stands for", () => {
    expect(said({}, "film is milky", "enough", "it was Banjo").values).toMatchObject({
      cause: "fixer-spent",
      name: "Banjo",
    });
  });

  test("which of two developers is asked, and the cause stays what was said", () => {
    const two = { stages: { 3: { kind: "colour developer", bath: "second", bottle: "banjo" } } };
    const asked = said(two, ...thin, "it was mixed too weak");
    expect(asked.reply.ask?.options?.map(({ word }) => word)).toEqual(["Acorn", "Banjo"]);
    const { values } = said(two, ...thin, "it was mixed too weak", "Banjo");
    expect(values).toMatchObject({ cause: "weak-mix", what: "bottle", name: "Banjo" });
  });

  test("which of two thermometers is asked", () => {
    const two = { run: { readings: [red("red"), red("glass")] } };
    const asked = said(two, ...thin, "it was the thermometer");
    expect(asked.reply.kind).toBe("question");
    const { values } = said(two, ...thin, "it was the thermometer", "glass");
    expect(values).toMatchObject({ what: "thermometer", name: "the glass thermometer" });
  });

  test("it is evidence for the next run that the same bottle touched", () => {
    const proved = said({ done: [10, 5] }, ...thin, "it was the bottle").record.bench;
    const [run] = Object.values(proved.runs);
    if (run === undefined) throw new Error("no run");
    const plannedAt = instant(evening + 86_400_000);
    const next = { ...run, id: "run-2", notes: [], plannedAt, endedAt: later(plannedAt, 900) };
    const bench = { ...proved, runs: { ...proved.runs, "run-2": next } };
    const { reply } = told(thin, bench);
    expect(reply.facts.run).toBe("run-2");
    expect(JSON.stringify(reply.figures.evidence)).toContain("it proved true of another run");
  });

  test("undo takes the mark and the note back", () => {
    const { record } = said({ done: [10, 5] }, ...thin, "it was the bottle", "undo");
    expect(record.bench.bottles.acorn?.suspect).toBeUndefined();
    expect(record.bench.runs["run-1"]?.notes).toEqual([]);
  });

  test("without a diagnosis there is nothing to confirm, and a search half way has no numbers", () => {
    expect(said({}, "confirmed 1").values.reason).toBe("no-diagnosis");
    expect(said({}, "the negatives are thin", "confirmed 1").values.reason).toBe("not-finished");
    expect(said({}, ...thin, "confirmed 19").values.reason).toBe("not-in-ranking");
  });

  test("what it was may be known before all is asked", () => {
    expect(said({}, "the negatives are thin", "it was the thermometer", "red").values.cause).toBe(
      "thermometer-off",
    );
  });
});

test("a record with a search and diagnoses in it loads as it was", () => {
  const { record } = said({}, "film is milky", "enough", "it was Banjo", "the negatives are thin");
  const plain = JSON.parse(JSON.stringify(record));
  const loaded = recordSchema.parse(plain);
  expect(loaded.bench.diagnosing).toEqual(record.bench.diagnosing);
  expect(loaded.bench.diagnoses).toEqual(record.bench.diagnoses);
});
