import { expect, test } from "vitest";
import { readReminderChoice } from "./own-words.ts";

test.each([
  { text: "reminders by DM", direct: false, where: "dm" },
  { text: "send my reminders here", direct: true, where: "dm" },
  { text: "send my reminders here.", direct: false, where: "channel" },
  { text: "give me my reminders in the channel", direct: true, where: "channel" },
  { text: "reminders", direct: false, where: undefined },
  { text: "remind me here to order fixer", direct: false, where: undefined },
])("$text, direct $direct: $where", ({ text, direct, where }) => {
  expect(readReminderChoice(text, direct)).toBe(where);
});
