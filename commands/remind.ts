import { z } from "zod";
import { askFor, defineCommand, type Handling } from "../src/commands/define-command.ts";
import {
  dueFacts,
  dueValues,
  sayDue,
  showDue,
  withMessage,
} from "../src/commands/reminder-text.ts";
import { type NoMoment, type Resolved, resolveMoment } from "../src/commands/resolve-when.ts";
import { type MomentField, momentSchema } from "../src/commands/when-fields.ts";
import { showTime } from "../src/domain/reminders/calendar.ts";
import { quietUntil } from "../src/domain/reminders/daily.ts";
import { dueOf } from "../src/domain/reminders/due.ts";
import { type Reminder, repeatsSchema } from "../src/domain/reminders/reminder.ts";
import { showRepeats } from "../src/domain/reminders/show-repeats.ts";
import { type Bench, takeId } from "../src/domain/session/bench.ts";
import { showDate } from "../src/domain/timing/clock-text.ts";
import type { Instant } from "../src/domain/units/quantity.ts";
import { readMoment } from "../src/language/readers/moment.ts";
import { toWords } from "../src/language/words.ts";
import { answer, oneBreath, type Reply, refuse } from "../src/reply/reply.ts";

/** More reminders than this nobody reads. */
const MOST = 500;
/** What was told this long ago and never ticked off is dropped when a new one comes, ms. */
const FORGOTTEN = 30 * 86_400_000;

const text = z
  .string()
  .max(500, "A reminder has 500 characters at most. Say it shorter.")
  .optional();

export const remindCommand = defineCommand({
  name: "remind",
  summary: "Remind you of something: once, or again and again.",
  topic: "reminder",
  sentences: [
    "remind (me|us) [for] {when} (to|that|about|of) {text}",
    "remind (me|us) [for] {when} {text}",
    "remind (me|us) (to|that|about|of) {task} {when}",
    "(can|could|will|would) you remind (me|us) [for] {when} (to|that|about|of) {text}",
    "(can|could|will|would) you remind (me|us) (to|that|about|of) {task} {when}",
    "do not let (me|us) forget (to|about) {task} {when}",
    "do not let (me|us) forget [(to|about)] {text}",
    "reminder [to] {task} {when}",
    "remind (me|us) [(to|that|about|of)] {text}",
    "remind (me|us) [for] {when}",
    "remind (me|us)",
    "{when} remind (me|us) [(to|that|about|of)] {text}",
    "(set|make|add) [a|an] reminder [for] {when} [(to|that|about|of)] {text}",
    "(set|make|add) [a|an] reminder (to|that|about|of|for) {task} {when}",
    "(set|make|add|new) [a|an] reminder [for] [{when}]",
    "{every} {text}",
  ],
  slots: { task: "task", every: "repeats", bottle: "bottle" },
  examples: [
    "remind me friday 8pm to order fixer",
    "remind me to check the bottles every sunday",
    "remind me six months after I mixed it",
  ],
  fields: z.object({
    when: momentSchema.optional(),
    every: repeatsSchema.optional(),
    text,
    task: text,
    bottle: z.string().optional(),
  }),
  changes: true,
  values: {
    reminder: "its id",
    text: "what it says",
    ...dueValues,
    repeats: "how often, in words; null for once",
    bottle: "the bottle it counts from, if any",
    reason: "why the moment could not be kept, where it is asked for again",
    owner: "who asked for it, when it comes",
    late_s: "how late it comes, s; missing when it is on time",
    reminders: "several of one person that come at once: list of { id, text, due }",
  },
  run(at, fields) {
    const { bench, now } = at;
    const said = fields.text ?? fields.task;
    const when: MomentField | undefined = fields.when ?? fields.every;
    if (when === undefined) {
      if (said === undefined) return askFor("remind", {}, "text", "Remind you of what?");
      const title = "When? Say a day and a time, like friday 8 pm, or every sunday.";
      return askFor("remind", { text: said }, "when", title);
    }
    const second = fields.text === undefined ? undefined : timeAtEnd(at, fields.text);
    if (second !== undefined) {
      return refuse(
        "two-times",
        `I heard one time in front and "${second}" behind. Put the whole time in one place.`,
        { say: "I heard two times. Put the whole time in one place.", facts: { heard: second } },
      );
    }
    const found = resolveMoment(bench, now, when, fields.bottle ?? bottleOfLast(at));
    if (!("due" in found)) return askAgain(found, when, said);
    const task = said ?? ofBottle(found, when);
    if (task === undefined) return askFor("remind", { when }, "text", "Remind you of what?");
    return remember(bench, at.who, now, task, found);
  },
});

/** A time at the end of a text that has its time in front already. */
function timeAtEnd({ listening }: Handling, typed: string): string | undefined {
  const { words } = toWords(typed);
  for (let from = 1; from < words.length; from += 1) {
    const whole = readMoment(words, from, listening).some(({ next }) => next === words.length);
    if (whole) return words.slice(from).join(" ");
  }
  return undefined;
}

/** "it" is the bottle the talk was about. */
function bottleOfLast({ bench, last }: Handling): string | undefined {
  const name = last?.facts.bottle;
  const live = Object.values(bench.bottles).filter(({ retiredOn }) => retiredOn === undefined);
  return typeof name === "string" ? live.find((one) => one.name === name)?.id : undefined;
}

/** The question that is left, with all that was said kept. */
function askAgain(no: NoMoment, when: MomentField, said: string | undefined): Reply {
  const text = said === undefined ? {} : { text: said };
  const parts = { facts: { reason: no.reason } };
  if (no.bottles === undefined)
    return askFor("remind", text, "when", no.sentence, undefined, parts);
  const options = no.bottles.map(({ id, name }) => ({ word: name, value: id }));
  return askFor("remind", { ...text, when }, "bottle", no.sentence, options, parts);
}

/** What to say where only a bottle and its date were given. */
function ofBottle(found: Resolved, when: MomentField): string | undefined {
  const { bottle } = found;
  if (bottle === undefined || found.from === undefined || when.kind !== "from-bottle")
    return undefined;
  const { months, days } = when;
  const span = [
    ...(months === 0 ? [] : [`${months} month${months === 1 ? "" : "s"}`]),
    ...(days === 0 ? [] : [`${days} day${days === 1 ? "" : "s"}`]),
  ].join(" and ");
  if (span === "") return `${bottle.name} (${bottle.bath}): good until ${showDate(found.from)}`;
  // Dates, not "ago" and "left": a snoozed reminder is read on another day.
  return when.anchor === "mixed"
    ? `${bottle.name} (${bottle.bath}): ${span} since it was mixed on ${showDate(bottle.mixedOn)}`
    : `${bottle.name} (${bottle.bath}): ${span} before its limit on ${showDate(found.from)}`;
}

function remember(bench: Bench, who: string, now: Instant, text: string, found: Resolved) {
  const kept = withoutForgotten(bench, now);
  if (Object.keys(kept.reminders).length >= MOST) {
    return refuse(
      "too-many-reminders",
      `There are ${MOST} reminders already. Tick some off first: say reminders.`,
    );
  }
  const taken = takeId(kept, "m");
  const { due, rule } = found;
  const reminder: Reminder = { id: taken.id, text, owner: who, rule, due };
  const often = rule.kind === "every" ? showRepeats(rule) : undefined;
  const first = often === undefined ? "" : "first ";
  return {
    bench: { ...taken.bench, reminders: { ...kept.reminders, [taken.id]: reminder } },
    reply: answer({
      title: `${showDue(bench, due)}: ${text}`,
      say: oneBreath(`Reminder set, ${first}${sayDue(bench, due)}.`),
      lines: [
        ...(often === undefined ? [] : [`It comes ${often}; this is the first time.`]),
        ...found.notes,
        ...withMessage(bench, due),
        ...quietNote(bench, reminder),
      ],
      facts: {
        reminder: taken.id,
        text,
        ...dueFacts(due),
        repeats: often ?? null,
        ...(found.bottle === undefined ? {} : { bottle: found.bottle.name }),
      },
    }),
  };
}

/** Inside the quiet hours nothing comes but what was asked for at that very time: this was. */
function quietNote(bench: Bench, reminder: Reminder): readonly string[] {
  const due = dueOf(reminder);
  if (due === undefined || !("at" in due) || quietUntil(bench, due.at) === undefined) return [];
  const { quietFrom, quietTo } = bench.daily;
  const hours = [quietFrom, quietTo].map((minutes) =>
    showTime({ hour: Math.floor(minutes / 60), minute: minutes % 60 }),
  );
  return [`That is inside your quiet hours (${hours.join(" to ")}); it comes all the same.`];
}

function withoutForgotten(bench: Bench, now: Instant): Bench {
  const entries = Object.entries(bench.reminders);
  const kept = entries.filter(
    ([, one]) =>
      dueOf(one) !== undefined || (one.givenAt !== undefined && now - one.givenAt < FORGOTTEN),
  );
  return kept.length === entries.length ? bench : { ...bench, reminders: Object.fromEntries(kept) };
}
