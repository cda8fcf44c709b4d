import { describe, expect, test } from "vitest";
import { loadCommands } from "../src/commands/registry.ts";
import { newRecord } from "../src/conversation/record.ts";
import { turn } from "../src/conversation/turn.ts";
import { instant } from "../src/domain/units/quantity.ts";
import { type Reply, valuesOf } from "../src/reply/reply.ts";

const commands = await loadCommands();
const byName = (name: string) => commands.find((command) => command.name === name);
/** Saturday 28 November 2026, 14:00 in Lisbon. */
const now = instant(Date.UTC(2026, 10, 28, 14));

/** Says these one after the other on a new bench; the replies. */
function say(...sentences: readonly string[]): readonly Reply[] {
  let record = newRecord("test", "Europe/Lisbon");
  return sentences.map((text) => {
    const { record: after, reply } = turn(record, { text, who: "Ines" }, now, commands);
    record = after;
    return reply;
  });
}
const lastOf = (...sentences: readonly string[]): Reply => say(...sentences).at(-1) as Reply;

test.each([
  ["remind me friday 8pm to order fixer", "Friday 4 December 2026, 20:00: order fixer"],
  ["remind me to order fixer friday 8pm", "Friday 4 December 2026, 20:00: order fixer"],
  [
    "Remind me to order fixer on Friday at 8 pm, please",
    "Friday 4 December 2026, 20:00: order fixer",
  ],
  ["friday 8pm remind me to order fixer", "Friday 4 December 2026, 20:00: order fixer"],
  ["set a reminder for friday 8pm to order fixer", "Friday 4 December 2026, 20:00: order fixer"],
  ["remind me in two weeks to Call Ana", "Saturday 12 December 2026: Call Ana"],
  ["every sunday check the bottles", "Sunday 29 November 2026: check the bottles"],
  [
    "remind me to check the bottles every sunday at 6pm",
    "Sunday 29 November 2026, 18:00: check the bottles",
  ],
  [
    "remind us on the 15th at 6pm of the open evening",
    "Tuesday 15 December 2026, 18:00: the open evening",
  ],
  ["remind me to buy 2 rolls at 8pm", "Saturday 28 November 2026, 20:00: buy 2 rolls"],
  ["remind me in an hour and a half to wash up", "Saturday 28 November 2026, 15:30: wash up"],
])("%j is kept for %j", (sentence, title) => {
  expect(lastOf(sentence)).toMatchObject({ kind: "reply", title });
});

test("what is missing is asked for, and nothing is lost", () => {
  expect(lastOf("remind me to order fixer", "friday 8pm").title).toBe(
    "Friday 4 December 2026, 20:00: order fixer",
  );
  expect(lastOf("remind me friday 8pm", "order fixer").title).toBe(
    "Friday 4 December 2026, 20:00: order fixer",
  );
  expect(lastOf("remind me at 8 to order fixer", "8 am").title).toBe(
    "Sunday 29 November 2026, 08:00: order fixer",
  );
  expect(lastOf("remind me 12/11 to order fixer", "11 december").title).toBe(
    "Friday 11 December 2026: order fixer",
  );
});

describe("bad input", () => {
  test.each([
    ["remind me 31 february to dance", "no-such-date", "friday 8pm"],
    ["remind me 1 november 2020 to dance", "in-the-past", "friday 8pm"],
    ["remind me yesterday to dance", "in-the-past", "friday 8pm"],
    ["remind me every 0 days to dance", "never-comes", "every 2 days at 8pm"],
    ["remind me today to dance", "message-is-out", "at 8 pm"],
  ])("%j is asked about (%s) and the text is kept", (sentence, reason, instead) => {
    const [asked, kept] = say(sentence, instead);
    expect(asked?.kind).toBe("question");
    expect(asked && valuesOf(asked).reason).toBe(reason);
    expect(kept && valuesOf(kept).text).toBe("dance");
  });

  test.each([
    ["remind me in 1e309 days to dance", "unreadable-number"],
    ["remind me friday to call at noon", "two-times"],
    [`remind me friday to ${"x".repeat(10_000)}`, "too-long"],
    [`remind me friday to ${"x".repeat(600)}`, "out-of-range"],
    ["done with fixer", "no-such-reminder"],
    ["reminder done", "nothing-to-tick-off"],
    ["snooze", "nothing-to-snooze"],
    ["forget reminder fixer", "no-such-reminder"],
    ["quiet from 09:00 to 09:00", "same-hour"],
  ])("%.40j is refused: %s", (sentence, reason) => {
    expect(valuesOf(lastOf(sentence)).reason).toBe(reason);
  });
});

test.each([
  ["remind me to order fixer friday 8pm", "reminders"],
  ["remind me to order fixer friday 8pm", "done with fixer"],
  ["remind me to order fixer friday 8pm", "snooze fixer until monday"],
  ["remind me to order fixer friday 8pm", "forget reminder fixer"],
  ["daily message", "daily message at 07:30"],
  ["daily message off", "quiet from 21:00 to 9:00"],
  ["no quiet hours", "I checked the thermometer"],
])("%j, then %j: every key of the values is documented, and one breath is enough", (...said) => {
  for (const reply of say(...said)) {
    expect(reply.kind).toBe("reply");
    expect(reply.say.split(/\s+/).length).toBeLessThanOrEqual(12);
    const known = Object.assign(
      {},
      ...["remind", "reminders", "snooze", "reminder done", "forget reminder", "daily"].map(
        (name) => byName(name)?.values ?? {},
      ),
    );
    for (const key of Object.keys(valuesOf(reply))) expect(Object.keys(known)).toContain(key);
  }
});

test("of two reminders with the same word one is asked for", () => {
  const replies = say(
    "remind me to order fixer friday 8pm",
    "remind me to filter the fixer every sunday",
    "forget reminder fixer",
    "order fixer",
  );
  expect(replies[2]?.title).toBe('2 reminders have "fixer" in them. Which one?');
  expect(replies[3]?.title).toBe("Forgotten: order fixer");
});

test("the bare word done belongs to the tank", () => {
  const [, reply] = say("remind me to order fixer friday 8pm", "done");
  expect(reply?.facts.text).toBeUndefined();
});
