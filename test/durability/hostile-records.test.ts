import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { apply } from "../../src/domain/changes.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { asked } from "../support/asked-of-records.ts";
import { withFolder } from "../support/child.ts";
import { eveningRecords, type Moment } from "../support/evening-records.ts";
import { speakTo } from "../support/speak-to.ts";

const commands = await loadCommands();
const last = (await eveningRecords(commands, 40)).at(-1);
if (last === undefined) throw new Error("no evening");
const evening: Moment = last;
const stored: unknown = JSON.parse(JSON.stringify(evening.record));

const LATEST = 8.64e15;
const heron = Object.values(evening.record.bench.bottles).find(({ name }) => name === "Heron");
const open = Object.values(evening.record.bench.runs).find(({ endedAt }) => endedAt === undefined);
const bottle = ["bench", "bottles", heron?.id ?? ""] as const;
const run = ["bench", "runs", open?.id ?? ""] as const;

/** The record with one value set, wherever that is. */
const having = (path: readonly (string | number)[], value: unknown): unknown =>
  apply(stored, [{ kind: "set", path, value }]);

test("the record itself is taken, as it stands and as it was frozen", () => {
  expect(recordSchema.safeParse(stored).success).toBe(true);
});

test.each([
  ["a day beyond any clock", [...bottle, "mixedOn"], "9999-12-31"],
  ["a day before film", [...bottle, "mixedOn"], "0001-01-01"],
  ["an opening beyond any clock", [...bottle, "fills"], [{ on: "9999-12-31", fill: "half" }]],
  ["a bottle of nothing", [...bottle, "volume"], 0],
  ["a run under another's id", [...run, "id"], "run-x"],
  ["a run under an inherited name", ["bench", "runs", "toString"], { ...open, id: "toString" }],
  ["a bottle under another's id", [...bottle, "id"], "bottle-x"],
  ["a stage out of an inherited bottle", [...run, "stages", 0, "bottle"], "toString"],
  ["a stage out of what a bottle inherits from", [...run, "stages", 0, "bottle"], "__proto__"],
  ["a sheet that is a word of the language", ["bench", "sheetInUse"], "constructor"],
  ["a message at the end of all calendars", ["bench", "dailyLook", "next"], LATEST],
  ["a message before them", ["bench", "dailyLook", "next"], -LATEST],
  [
    "a check at the end of all calendars",
    ["bench", "thermometers", "red"],
    { name: "red", checks: [{ at: LATEST, read: 38, reference: 38 }] },
  ],
  [
    "a reminder every thousand million weeks",
    ["bench", "reminders", "m1"],
    {
      id: "m1",
      text: "x",
      owner: "Ines",
      rule: { kind: "every", every: 1e9, unit: "weeks", from: "2026-11-28", weekdays: [1] },
    },
  ],
] as const)(
  "a record with %s is refused in a sentence, and stays as it was",
  async (_, path, value) => {
    const parsed = recordSchema.safeParse(having(path, value));
    expect(parsed.error?.issues[0]?.path.slice(0, 2)).toEqual(path.slice(0, 2));
    await withFolder(async (directory) => {
      const store = await openFileStore<BenchRecord>({ directory, schema: recordSchema });
      await store.load("home");
      const whole = evening.record;
      await store.commit("home", undefined, whole);
      const hostile = apply(whole, [{ kind: "set", path, value }]);
      await expect(store.commit("home", whole, hostile)).rejects.toMatchObject({ kind: "unfit" });
      await store.close();
    });
  },
);

test.each([
  ["a part of a millisecond", ["bench", "dailyLook", "next"], 1e-300],
  ["a tenth of a millisecond", ["bench", "dailyLook", "next"], 0.1],
  [
    "the last day a reminder can be asked for",
    ["bench", "reminders", "m1"],
    {
      id: "m1",
      text: "x",
      owner: "Ines",
      rule: { kind: "once" },
      due: { at: 253_402_293_600_000 },
    },
  ],
  [
    "the last days, again and again",
    ["bench", "reminders", "m1"],
    {
      id: "m1",
      text: "x",
      owner: "Ines",
      due: { day: "9999-12-31" },
      rule: { kind: "every", every: 1000, unit: "years", from: "9999-12-31" },
    },
  ],
  [
    "a bath that does no film",
    ["bench", "sheets", evening.record.bench.sheetInUse ?? "", "baths", 0, "capacity", "value"],
    0,
  ],
  [
    "a bath that keeps no time",
    ["bench", "sheets", evening.record.bench.sheetInUse ?? "", "baths", 0, "keeps", "value"],
    0,
  ],
  [
    "a bath that keeps for ever",
    ["bench", "sheets", evening.record.bench.sheetInUse ?? "", "baths", 0, "keeps", "value"],
    1e12,
  ],
  ["a bottle with nothing in it, of no size", [...bottle], { ...heron, contents: 0, size: 0 }],
] as const)("a record with %s is a bench one can talk to", (_, path, value) => {
  const record = recordSchema.parse(having(path, value));
  const replies = speakTo(record, evening.at, asked, commands);
  const shown = replies.flatMap(({ title, say, lines }) => [title, say, ...lines]).join("\n");
  expect(shown).not.toMatch(/undefined|NaN|Infinity/);
});

test("an undo step that would leave no bench is not taken, and the bench stays", () => {
  const changes = [{ kind: "set" as const, path: bottle.slice(1).concat("volume"), value: 0 }];
  const undo = [{ label: "meddled with", at: evening.at, changes }];
  const record = recordSchema.parse(having(["undo"], undo));
  const replies = speakTo(record, evening.at, ["undo", "how old is Heron"], commands);
  expect(replies[0]?.facts.reason).toBe("undo-misfit");
  expect(replies.map(({ title }) => title).join()).toContain("Heron (diamond): developer, 1 L");
});
