import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { sessionOf } from "../../src/commands/session-of.ts";
import { sessionLines } from "../../src/commands/session-text.ts";
import { forSharing } from "../../src/domain/record/for-sharing.ts";
import { readRepeatable } from "../../src/domain/record/read-repeatable.ts";
import { repeatableOf, repeatableSchema } from "../../src/domain/record/repeatable.ts";
import type { Run } from "../../src/domain/session/run.ts";
import { answersOf, wrongWith } from "../../src/domain/teaching/answers-of-repeatable.ts";
import { buildSheet } from "../../src/domain/teaching/build-sheet.ts";
import { nextQuestion } from "../../src/domain/teaching/questions.ts";
import { celsius, celsiusDifference, seconds } from "../../src/domain/units/quantity.ts";
import { sessionPicture } from "../../src/picture/session-picture.ts";
import { arbitrarySession, secrets } from "../support/arbitrary-session.ts";
import { benchWith, runOf, stageOf, washOf } from "../support/runs.ts";

const path = join(import.meta.dirname, "../../data/schemas/repeatable-1.schema.json");

const blockOf = (run: Run) => {
  const made = repeatableOf(forSharing(sessionOf(benchWith(run), run)), run);
  if (!made.ok) throw new Error(made.error);
  return made.value;
};

test("the published schema is what the program checks by", async () => {
  const title = "A run of developing film that another bench can do again";
  const made = {
    $id: "wetside/repeatable-1.schema.json",
    title,
    ...z.toJSONSchema(repeatableSchema),
  };
  await expect(`${JSON.stringify(made, undefined, 2)}\n`).toMatchFileSnapshot(path);
});

test("no private string is in any shared form, whatever the session", () => {
  const own = Object.values(secrets).map((secret) => secret.toLowerCase());
  const never = fc.property(arbitrarySession, ({ bench, run }) => {
    const shared = forSharing(sessionOf(bench, run));
    const made = repeatableOf(shared, run);
    const lines = sessionLines(shared);
    const forms = [
      JSON.stringify(shared),
      lines.join("\n"),
      JSON.stringify(made),
      sessionPicture(shared, lines, "wide").svg,
    ];
    for (const form of forms) {
      for (const secret of own) expect(form.toLowerCase()).not.toContain(secret);
    }
  });
  fc.assert(never, { numRuns: 500 });
});

test("every block is valid by an independent validator, and is read back as it was", () => {
  const valid = new Ajv2020({ strict: true }).compile(JSON.parse(readFileSync(path, "utf8")));
  const always = fc.property(arbitrarySession, ({ bench, run }) => {
    const made = repeatableOf(forSharing(sessionOf(bench, run)), run);
    if (!made.ok) throw new Error(made.error);
    expect(valid(JSON.parse(JSON.stringify(made.value))), JSON.stringify(valid.errors)).toBe(true);
    expect(readRepeatable(JSON.stringify(made.value))).toEqual(made);
  });
  fc.assert(always, { numRuns: 300 });
});

describe("a run that was pushed, warmed and poured from a tired bottle", () => {
  // Sheet 3:15; three rolls done add 12 s, the push 40 s, a colder bath a tenth: (195 + 12 + 40) x 1.1.
  const stage = stageOf({
    timeBase: seconds(195),
    time: seconds(271.7),
    temperature: celsius(37.5),
    tolerance: celsiusDifference(0.2),
    corrections: [
      { kind: "re-use", by: seconds(12), how: "3 rolls" },
      { kind: "push", by: seconds(40), how: "push 1" },
      { kind: "temperature", by: seconds(24.7), how: "colder" },
    ],
  });
  const run = runOf([stage, washOf(), washOf()], { push: 1, film: [{ format: "120", count: 2 }] });
  const block = blockOf(run);

  test("leaves the bottle's own part behind and keeps push and temperature", () => {
    expect(block.baths[0]).toMatchObject({ time_s: 214.5, temp_c: 37.5 });
    expect(block.baths[0]?.push).toEqual({ stops: 1, time_s: 258.5 });
    expect(block.baths.map(({ name }) => name)).toEqual(["developer", "wash", "wash 2"]);
    expect(block).toMatchObject({ push: 1, film: [{ format: "120", count: 2 }] });
  });

  test("becomes a sheet in which every figure says that it came from another bench", () => {
    const answers = answersOf(block, "theirs", "from another bench");
    expect(nextQuestion(answers)).toBeUndefined();
    expect(wrongWith(answers)).toBeUndefined();
    const [developer] = buildSheet("sheet-1", answers).baths;
    expect(developer?.time?.value).toBe(214.5);
    expect(developer?.time?.origin.source).toBe("theirs, from another bench");
    expect(developer?.push).toMatchObject({ kind: "table", rows: [{ at: 1, time: 258.5 }] });
    expect(buildSheet("s", answersOf({ ...block, invented: true }, "x", "y")).invented).toBe(true);
  });

  const text = JSON.stringify(block);
  test.each([
    ["cut short", text.slice(0, -20), "cut short"],
    ["of a newer version", text.replace('"version":1', '"version":2'), "newer"],
    ["of something else", '{"schema":"wetside-session","version":1}', "not ours"],
    ["with a key more", text.replace('"push":1,', '"push":1,"note":"hello",'), "must hold"],
    ["with words for a name", text.replace('"wash 2"', '"wash <b>2</b>"'), "baths.2.name"],
    ["with a prototype", text.replace('"push":1,', '"push":1,"__proto__":{},'), "must hold"],
    ["with the same bath twice", text.replace('"wash 2"', '"wash"'), "twice"],
    ["with an endless bath", text.replace('"time_s":195', '"time_s":1e9'), "baths.1.time_s"],
    ["far too long", `${text}${" ".repeat(9000)}`, "characters"],
  ])("one %s is refused with a sentence", (_, hostile, says) => {
    const read = readRepeatable(hostile);
    expect(read.ok ? "" : read.error).toContain(says);
  });

  test("one whose figures cannot be is stopped by the checks of teaching", () => {
    const hot = { ...block, baths: block.baths.map((bath) => ({ ...bath, temp_c: 90 })) };
    expect(readRepeatable(JSON.stringify(hot)).ok).toBe(true);
    expect(wrongWith(answersOf(hot, "hot", "x"))).toContain("not plausible");
  });
});
