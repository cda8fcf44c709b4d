import fc from "fast-check";
import { expect, test } from "vitest";
import { chemicalCautions, verdictReply } from "../../src/commands/diagnosis-answer.ts";
import { logOf } from "../../src/commands/diagnosis-log.ts";
import { causes, faultQuestions, faultTables, symptoms } from "../../src/data/faults.ts";
import { UNKNOWN } from "../../src/domain/faults/diagnosis.ts";
import { nextFaultQuestion } from "../../src/domain/faults/next-question.ts";
import { rankCauses } from "../../src/domain/faults/rank.ts";
import { readFaultAnswer } from "../../src/language/readers/fault-answer.ts";
import { benchAfter } from "../support/fault-bench.ts";

const bench = benchAfter("C-41", { off: { 0: -60, 1: -100 }, done: [10, 10] });
const log = logOf(bench, Object.values(bench.runs), "run-1");
const evidence = log?.evidence ?? [];
const words = (text: string) => text.split(/\s+/).filter((word) => word !== "");

const symptom = fc.constantFrom(...symptoms.map(({ id }) => id));
const given = fc
  .tuple(
    ...faultQuestions.map(({ options }) =>
      fc.constantFrom(UNKNOWN, undefined, ...options.map(({ word }) => word)),
    ),
  )
  .map((answers) =>
    Object.fromEntries(
      faultQuestions.flatMap(({ id }, index) => {
        const answer = answers[index];
        return answer === undefined ? [] : [[id, answer] as const];
      }),
    ),
  );

test("every name in the tables is the name of something", () => {
  const known = (ids: Iterable<string>) => [...ids].filter((id) => !faultTables.causes.has(id));
  for (const { id, causes: rows, asks } of symptoms) {
    expect(known(rows.map((row) => row.id)), id).toEqual([]);
    expect(
      asks.filter((one) => !faultTables.questions.has(one)),
      id,
    ).toEqual([]);
    expect(
      rows.map(({ points }) => points),
      id,
    ).toContain(Math.max(...rows.map(({ points }) => points)));
  }
  for (const { id, options } of faultQuestions) {
    for (const option of options)
      expect(known(Object.keys(option.causes)), `${id} ${option.word}`).toEqual([]);
  }
  for (const [kind, rule] of faultTables.evidence)
    expect(known(Object.keys(rule.causes)), kind).toEqual([]);
  const used = new Set(symptoms.flatMap((one) => one.causes.map(({ id }) => id)));
  expect(causes.filter(({ id }) => !used.has(id))).toEqual([]);
});

test("every line has a source and says how well it was seen", () => {
  for (const { how, checks, rescue } of causes) {
    for (const { from } of [how, ...checks, rescue]) {
      expect(from.source.length).toBeGreaterThan(5);
      expect(from.grade === "common practice").toBe(
        /^common practice|tank mates/.test(from.source),
      );
    }
  }
});

test("a rescue with chemicals names a source outside, or says that it is common practice", () => {
  const redone = causes.filter(({ rescue }) => rescue.chemicals.length > 0);
  expect(redone.length).toBeGreaterThan(8);
  for (const { rescue } of redone) expect(rescue.possible).not.toBe("no");
});

test("what needs no chemicals is looked at first", () => {
  for (const { id, checks } of causes) {
    const needs = checks.map(({ chemicals }) => chemicals.length > 0);
    expect(needs, id).toEqual(needs.toSorted());
    expect(needs[0], id).toBe(false);
  }
});

test("advice never sends anybody to smell, taste or touch a solution", () => {
  const all = causes.flatMap(({ checks, rescue }) => [...checks, rescue].map(({ text }) => text));
  expect(
    all.filter(
      (text) => /\b(smell|sniff|taste|bare hand)/i.test(text) && !/never smell/i.test(text),
    ),
  ).toEqual([]);
});

test("points add up, whatever was seen and answered", () => {
  const sums = fc.property(symptom, given, (id, answers) => {
    for (const { points, weights } of rankCauses(
      faultTables,
      { symptoms: [id], given: answers },
      evidence,
      "C-41",
    )) {
      expect(points).toBe(weights.reduce((sum, weight) => sum + weight.points, 0));
    }
  });
  fc.assert(sums, { seed: 7 });
});

test("the ranking is of the symptom's own causes and falls", () => {
  const falls = fc.property(symptom, given, (id, answers) => {
    const ranking = rankCauses(faultTables, { symptoms: [id], given: answers }, evidence);
    const points = ranking.map((one) => one.points);
    expect(points).toEqual(points.toSorted((a, b) => b - a));
    expect(new Set(ranking.map(({ cause }) => cause.id))).toEqual(
      new Set(faultTables.symptoms.get(id)?.causes.map((one) => one.id)),
    );
  });
  fc.assert(falls, { seed: 7 });
});

test("black and white is never told of causes that only colour has", () => {
  for (const { id } of symptoms) {
    const ranking = rankCauses(faultTables, { symptoms: [id], given: {} }, [], "black-and-white");
    expect(ranking.filter(({ cause }) => cause.only === "colour")).toEqual([]);
  }
});

test("four questions at most, whatever is answered, and none twice", () => {
  const ends = fc.property(
    symptom,
    fc.array(fc.nat(3), { minLength: 8, maxLength: 8 }),
    (id, picks) => {
      const asked: string[] = [];
      let answers: Readonly<Record<string, string>> = {};
      for (const pick of picks) {
        const question = nextFaultQuestion(
          faultTables,
          { symptoms: [id], given: answers },
          [],
          "C-41",
        );
        if (question === undefined) break;
        asked.push(question.id);
        answers = { ...answers, [question.id]: question.options[pick]?.word ?? UNKNOWN };
      }
      expect(asked.length).toBeLessThanOrEqual(4);
      expect(new Set(asked).size).toBe(asked.length);
    },
  );
  fc.assert(ends, { seed: 7 });
});

test("two symptoms: a cause of both stands before a cause of one that is worth as much", () => {
  const alone = rankCauses(faultTables, { symptoms: ["muddy"], given: {} }, []);
  const both = rankCauses(faultTables, { symptoms: ["muddy", "milky"], given: {} }, []);
  expect(alone[0]?.cause.id).toMatch(/^bleach/);
  expect(both[0]?.cause.id).toMatch(/^fix/);
});

test("no answer sounds certain, and each can be said in one breath", () => {
  const spoken = fc.property(symptom, given, (id, answers) => {
    const seen = { symptoms: [id], given: answers };
    const ranking = rankCauses(faultTables, seen, evidence, "C-41");
    const reply = verdictReply(bench, seen, log, ranking);
    expect(words(reply.say).length).toBeLessThanOrEqual(12);
    expect(reply.say).toMatch(/[Mm]ost likely/);
    expect(reply.lines.join(" ")).toContain("A ranking is no proof");
    expect(`${reply.title} ${reply.lines.join(" ")}`).not.toMatch(
      /\b(certainly|definitely|surely|without doubt|the cause is)\b/i,
    );
    // Whoever is sent to a bath hears what hands should know first.
    const chemicals = reply.lines.some((line) => line.includes("Then, with chemicals"));
    if (chemicals) expect(reply.cautions.join(" ")).toContain("The maker's sheet outranks me");
  });
  fc.assert(spoken, { seed: 7 });
});

test("cautions follow what hands will touch", () => {
  const [dry] = causes.filter(({ id }) => id === "camera-leak");
  const [wet] = causes.filter(({ id }) => id === "bleach-spent");
  if (dry === undefined || wet === undefined) throw new Error("a cause is missing");
  expect(chemicalCautions([{ cause: dry }])).toEqual([]);
  expect(chemicalCautions([{ cause: wet }]).join(" ")).toMatch(/Gloves[\s\S]*vent early/);
});

test("every question can be asked in one breath and answered by its own words", () => {
  for (const question of faultQuestions) {
    expect(words(question.say ?? question.ask).length, question.id).toBeLessThanOrEqual(12);
    for (const { word, ways } of question.options) {
      for (const said of [word, ...ways]) {
        expect(readFaultAnswer(question, said), `${question.id}: ${said}`).toBe(word);
      }
    }
  }
});

test.each([
  ["numbers", "they look faint", "faint"],
  ["numbers", "I think they are missing", "missing"],
  ["numbers", "2", "faint"],
  ["numbers", "I can't tell", UNKNOWN],
  ["numbers", "don't know", UNKNOWN],
  ["numbers", "skip", UNKNOWN],
  ["numbers", "just tell me", "enough"],
  ["numbers", "the bath is cold", undefined],
  ["extent", "on all of them", "all of them"],
  ["extent", "just one", "one roll"],
  ["wipes", "yes it does", "yes"],
  ["place", "mostly at the edges", "one end or edge"],
  ["changed", "nothing changed", "nothing"],
  ["marking", "it says c41", undefined],
  ["marking", "c41", "C-41"],
])("%s: %s", (id, said, word) => {
  const question = faultTables.questions.get(id);
  if (question === undefined) throw new Error(`no question ${id}`);
  expect(readFaultAnswer(question, said)).toBe(word);
});
