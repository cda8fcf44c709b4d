import { describe, expect, test } from "vitest";
import { evening } from "../../../../test/support/runs.ts";
import { dailyLooks } from "../../../commands/daily-looks.ts";
import { loadCommands } from "../../../commands/registry.ts";
import { announceReminders } from "../../../conversation/announce-reminders.ts";
import { type BenchRecord, newRecord, recordSchema } from "../../../conversation/record.ts";
import { type Message, turn } from "../../../conversation/turn.ts";
import { planDaily } from "../../../domain/reminders/daily-message.ts";
import { decide, nextDue } from "../../../domain/session/decide.ts";
import { type Instant, later } from "../../../domain/units/quantity.ts";
import type { Reply } from "../../../reply/reply.ts";
import { type Meant, readPress } from "./read-press.ts";
import { reminderButtons } from "./reminder-buttons.ts";

const commands = await loadCommands();
const benchKey = "100000000000000001";
const who = "Ines";
const HOUR = 3600;

const say = (record: BenchRecord, words: object, now: Instant) =>
  turn(record, { who, ...words } as Message, now, commands);

/** What the clock tells next, and the record after it. */
function told(record: BenchRecord, from: Instant) {
  const bench = planDaily(record.bench, from, dailyLooks);
  const now = nextDue(bench);
  if (now === undefined) throw new Error("nothing is due");
  const decided = decide(bench, now, dailyLooks);
  const replies = announceReminders(decided.bench, decided.given ?? [], now);
  return { now, replies, record: { ...record, bench: decided.bench } };
}

const labels = (record: BenchRecord, reply: Reply): readonly string[][] =>
  reminderButtons(record.bench, benchKey, reply).map((row) => row.map(({ label }) => label ?? ""));

const idOf = (record: BenchRecord, reply: Reply, label: string): string =>
  reminderButtons(record.bench, benchKey, reply)
    .flat()
    .find((one) => one.label === label)?.custom_id ?? "";

/** The program was ended and started again: the record comes back from its file. */
const restarted = (record: BenchRecord): BenchRecord =>
  recordSchema.parse(JSON.parse(JSON.stringify(record))) as BenchRecord;

const press = (id: string, record: BenchRecord, now: Instant): Meant =>
  readPress(id, { benchKey, record, who, now });
const words = (meant: Meant): object => {
  if ("refusal" in meant) throw new Error(meant.refusal.title);
  return meant;
};

const empty = newRecord("test", "Europe/Lisbon");

describe("one reminder", () => {
  const asked = say(empty, { text: "remind me in two hours to order fixer" }, evening);
  const given = told(asked.record, evening);
  const reply = given.replies[0];
  if (reply === undefined) throw new Error("not told");

  test("is told with snooze and done", () => {
    expect(reply.title).toBe("Reminder: order fixer");
    expect(labels(given.record, reply)).toEqual([["snooze", "done"]]);
  });

  test("is ticked off by done, days later and after a restart", () => {
    const id = idOf(given.record, reply, "done");
    const after = restarted(given.record);
    const now = later(given.now, 72 * HOUR);
    const ticked = say(after, words(press(id, after, now)), now);
    expect(ticked.reply.title).toBe("Ticked off: order fixer");
    expect(Object.values(ticked.record.bench.reminders)[0]?.doneOn).toBeDefined();
  });

  test("comes again after snooze, and the first buttons still mean it", () => {
    const id = idOf(given.record, reply, "snooze");
    const put = say(given.record, words(press(id, given.record, given.now)), given.now);
    expect(put.reply.title).toContain("again: order fixer");
    const again = told(put.record, given.now);
    expect(again.replies[0]?.title).toBe("Reminder: order fixer");
    const done = idOf(given.record, reply, "done");
    expect(press(done, again.record, again.now)).toHaveProperty("command", "reminder done");
  });
});

test("what repeats is ticked off for its own time only", () => {
  const asked = say(empty, { text: "remind me every day at 8 pm to drain the trays" }, evening);
  const first = told(asked.record, evening);
  const second = told(first.record, first.now);
  const [early, fresh] = [first.replies[0], second.replies[0]];
  if (early === undefined || fresh === undefined) throw new Error("not told");
  const old = press(idOf(first.record, early, "done"), second.record, second.now);
  expect("refusal" in old && old.refusal.facts.reason).toBe("old-button");
  const now = press(idOf(second.record, fresh, "done"), second.record, second.now);
  expect(now).toHaveProperty("command", "reminder done");
});

describe("the daily message", () => {
  const wishes = [
    "remind me tomorrow to order fixer",
    "remind me tomorrow to wash the jugs",
    "remind me monday to buy gloves",
  ];
  const asked = wishes.reduce((record, text) => say(record, { text }, evening).record, empty);
  const given = told(asked, evening);
  const reply = given.replies[0];
  if (reply === undefined) throw new Error("not told");

  test("has done for each reminder in it, and one snooze", () => {
    expect(labels(given.record, reply)).toEqual([
      ["done: order fixer", "done: wash the jugs"],
      ["snooze"],
    ]);
  });

  test("is put off as a whole", () => {
    const record = restarted(given.record);
    const put = say(
      record,
      words(press(idOf(record, reply, "snooze"), record, given.now)),
      given.now,
    );
    expect(put.reply.title).toContain("again: the daily message");
  });

  test("of a day before has no snooze any more", () => {
    const id = idOf(given.record, reply, "snooze");
    const tomorrow = told(given.record, later(given.now, 60));
    const old = press(id, tomorrow.record, tomorrow.now);
    expect("refusal" in old && old.refusal.facts.reason).toBe("old-button");
  });
});
