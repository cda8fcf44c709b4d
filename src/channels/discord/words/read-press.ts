import type { APIModalInteractionResponseCallbackData } from "discord-api-types/v10";
import { standingLine } from "../../../commands/run-lines.ts";
import { pick } from "../../../conversation/choices.ts";
import type { BenchRecord, Pending } from "../../../conversation/record.ts";
import { openQuestion } from "../../../conversation/turn.ts";
import { toldLast } from "../../../domain/reminders/snooze.ts";
import type { Bench } from "../../../domain/session/bench.ts";
import { liveRuns } from "../../../domain/session/find-run.ts";
import { awaitsEnd, awaitsOut, standing } from "../../../domain/session/hear.ts";
import type { Run } from "../../../domain/session/run.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import { toWords } from "../../../language/words.ts";
import { type Reply, refuse } from "../../../reply/reply.ts";
import { questionKey, type RunMoment, readReminderKey, readRunKey, runKey } from "./asked.ts";
import { customId } from "./custom-id.ts";
import { SNOOZE_DAILY, toldFor } from "./reminder-buttons.ts";
import { FORM, sheetKey, type Typed, teachForm } from "./teach-form.ts";

export type Meant =
  | { readonly text: string }
  | { readonly command: string; readonly fields: Readonly<Record<string, unknown>> }
  /** The next page of the form that teaches a sheet. */
  | { readonly form: APIModalInteractionResponseCallbackData }
  | { readonly refusal: Reply };

export type Pressed = {
  /** The bench of the channel the button was pressed in. */
  readonly benchKey: string;
  readonly record: BenchRecord;
  /** Who pressed it, as the bench names them. */
  readonly who: string;
  readonly now: Instant;
  /** What this person typed into a form and was not taken. */
  readonly typed?: Typed | undefined;
};

/**
 * What a pressed button says to the bench it was pressed at. A button of another bench, of a
 * question that is no longer open, of a bath that is over, or one we did not make changes nothing
 * and is told politely. Never throws.
 */
export function readPress(id: string, pressed: Pressed): Meant {
  const read = customId.read(id);
  switch (read.kind) {
    case "foreign":
    case "damaged":
      return no("not-our-button", "That button is none of mine, or is damaged. Say it instead.");
    case "outdated":
      return no("old-button", "That button is from an older version. Say it instead.");
    case "button":
      break;
  }
  if (read.bench !== pressed.benchKey) {
    return no("other-bench", "That button belongs to another bench. Nothing was changed here.");
  }
  const { word, asked } = read;
  if (/^o\d{1,2}$/.test(word)) return readOption(Number(word.slice(1)), asked ?? "", pressed);
  if (word === "again" || word === "left" || word === "trouble")
    return { command: word, fields: {} };
  if (word === "snooze" || word === "done") return readReminder(word, asked ?? "", pressed);
  if (word === SNOOZE_DAILY) return readDaily(asked ?? "", pressed);
  if (word === FORM) return openForm(asked ?? "", pressed);
  return readRunWord(word, asked ?? "", pressed);
}

const no = (reason: string, title: string, lines: readonly string[] = []): Meant => ({
  refusal: refuse(reason, title, { lines }),
});

/** The sheet that is being taught is gone on with, however long the paper was looked for. */
function questionOf({ record, who, now }: Pressed): Pending | undefined {
  const open = openQuestion(record, who, now);
  if (open !== undefined) return open;
  const latest = record.threads[who]?.pending;
  const teaching = record.bench.draft !== undefined && latest?.ask.command === "learn";
  return teaching ? latest : undefined;
}

function readOption(index: number, asked: string, pressed: Pressed): Meant {
  const pending = questionOf(pressed);
  const option = pending?.ask.options?.[index];
  if (pending === undefined || option === undefined || questionKey(pending) !== asked) {
    return no("old-question", "That question is not open for you any more. Nothing was changed.");
  }
  const { ask, settles, sentence } = pending;
  // A word's meaning is learnt for next time only where the word itself is heard.
  const heard = pick(ask.options ?? [], toWords(option.word).words.join(" "));
  const asWords = sentence !== undefined || (settles !== undefined && heard === option);
  if (asWords) return { text: option.word };
  return { command: ask.command, fields: { ...ask.fields, [ask.slot]: option.value } };
}

/** Words at the sink, by the moment they are good for. `next` does another thing each time. */
const good: Readonly<Record<string, (run: Run, at: RunMoment, now: Instant) => boolean>> = {
  ready: sameBath,
  in: sameBath,
  out: (run, at, now) => sameBath(run, at) || stillOut(run, at, now),
  next: (run, at, now) => runKey(run, now) === `${at.run}.${at.stage}.${at.letter}`,
  wait: sameBath,
  yes: (run, at, now) => sameBath(run, at) && standing(run, now).kind === "pouring",
  // Before a pour "hold" would put it off: that is another button.
  hold: (run, _, now) => run.endedAt === undefined && standing(run, now).kind !== "planned",
  "go on": (run) => run.endedAt === undefined,
};

function sameBath(run: Run, at: RunMoment): boolean {
  return run.endedAt === undefined && run.current === at.stage;
}

/** "out" is still news about a bath that only the clock took for out. */
function stillOut(run: Run, at: RunMoment, now: Instant): boolean {
  const later = run.stages.findIndex(({ skipped }, index) => index > at.stage && skipped !== true);
  return awaitsEnd(run, now)
    ? later < 0
    : run.endedAt === undefined && awaitsOut(run) && later === run.current;
}

function readRunWord(word: string, asked: string, { record, now }: Pressed): Meant {
  const at = readRunKey(asked);
  const isGood = Object.hasOwn(good, word) ? good[word] : undefined;
  if (at === undefined || isGood === undefined) {
    return no("not-our-button", "That button is none of mine, or is damaged. Say it instead.");
  }
  const run = Object.hasOwn(record.bench.runs, at.run) ? record.bench.runs[at.run] : undefined;
  if (run === undefined) return no("old-button", "That run is over. Nothing was changed.");
  if (!isGood(run, at, now)) {
    const bath = run.stages[at.stage]?.bath ?? "another bath";
    return no("old-button", `That button was for ${bath}, a moment ago. Nothing was changed.`, [
      standingLine(record.bench, run, now),
    ]);
  }
  if (word === "yes") return meantYes(record.bench, now);
  return { command: word, fields: { tank: run.tank } };
}

/** The word takes no tank: of several pours at once nobody knows which it means. */
const meantYes = (bench: Bench, now: Instant): Meant =>
  liveRuns(bench).filter((run) => standing(run, now).kind === "pouring").length === 1
    ? { command: "yes", fields: {} }
    : no("old-button", "Several tanks are being poured. Say in, and the tank.");

function readReminder(word: string, asked: string, { record }: Pressed): Meant {
  const key = readReminderKey(asked);
  const { reminders } = record.bench;
  const reminder =
    key !== undefined && Object.hasOwn(reminders, key.id) ? reminders[key.id] : undefined;
  if (key === undefined || reminder === undefined) {
    return no("no-such-reminder", "That reminder is off the list. Nothing was changed.");
  }
  // One that repeats has been told again since: the newer message has the buttons.
  if (reminder.rule.kind === "every" && (toldFor(reminder) ?? key.due) > key.due) {
    return no("old-button", "I have told that again since. Use the newest message of it.");
  }
  const command = word === "done" ? "reminder done" : "snooze";
  return { command, fields: { which: reminder.id } };
}

function openForm(asked: string, { record, benchKey, typed }: Pressed): Meant {
  const { draft } = record.bench;
  const form = teachForm(draft, benchKey, typed);
  if (draft === undefined || form === undefined || sheetKey(draft) !== asked) {
    return no("old-form", "That form is of a sheet as it was before. Say learn a sheet.");
  }
  return { form };
}

function readDaily(day: string, { record: { bench } }: Pressed): Meant {
  if (bench.dailyLook.on !== day || toldLast(bench)?.kind !== "daily") {
    return no("old-button", "That is not the newest message. Say snooze and its words instead.");
  }
  return { command: "snooze", fields: {} };
}
