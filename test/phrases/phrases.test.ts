import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { showTime, zonedAt } from "../../src/domain/reminders/calendar.ts";
import { newDaily } from "../../src/domain/reminders/daily.ts";
import { firstDue } from "../../src/domain/reminders/due.ts";
import type { Repeats } from "../../src/domain/reminders/reminder.ts";
import { showRepeats } from "../../src/domain/reminders/show-repeats.ts";
import { type Instant, instant } from "../../src/domain/units/quantity.ts";
import { isUnsettled, type Listening, type SlotReader } from "../../src/language/reader.ts";
import { readers } from "../../src/language/readers/all.ts";
import { readPastDate } from "../../src/language/readers/date-past.ts";
import { readDuration } from "../../src/language/readers/duration.ts";
import { isUnreadable } from "../../src/language/readers/unreadable.ts";
import type { When } from "../../src/language/readers/when.ts";
import { toWords } from "../../src/language/words.ts";

type Phrase = {
  readonly zone: string;
  readonly now: Instant;
  readonly phrase: string;
  readonly means: string;
};

/** The phrases of a file: `@ zone local-time` sets the scene, `phrase -> meaning` is one. */
function phrasesIn(file: string): readonly Phrase[] {
  const found: Phrase[] = [];
  let zone = "UTC";
  let now = instant(0);
  for (const line of readFileSync(join(import.meta.dirname, file), "utf8").split("\n")) {
    const scene = /^@ (\S+) (\S+)$/.exec(line);
    if (scene !== null) {
      zone = scene[1] ?? "";
      now = instant(
        Temporal.PlainDateTime.from(scene[2] ?? "").toZonedDateTime(zone).epochMilliseconds,
      );
    }
    const [phrase, means] = line.split(" -> ");
    if (phrase === undefined || means === undefined || line.startsWith("#")) continue;
    found.push({ zone, now, phrase, means });
  }
  return found;
}

const listening = ({ zone, now }: Phrase): Listening => ({
  now,
  zone,
  names: { bottle: new Map([["acorn", "b1"]]), sheet: new Map(), tank: new Map() },
});

const local = (at: number, zone: string): string => {
  const time = zonedAt(instant(at), zone);
  return `${time.toPlainDate()} ${showTime(time)}`;
};

const plural = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? "" : "s"}`;

function showWhen(when: When | Repeats, { zone, now }: Phrase): string {
  switch (when.kind) {
    case "at":
      return local(when.at, zone);
    case "day":
      return when.day;
    case "from-bottle": {
      const { bottle, anchor, months, days } = when;
      const span = [
        ...(months > 0 ? [plural(months, "month")] : []),
        ...(days > 0 ? [plural(days, "day")] : []),
      ].join(" ");
      const day = `${bottle === undefined ? "" : "acorn "}${anchor}`;
      return span === "" ? day : `${day} ${anchor === "mixed" ? "+" : "-"} ${span}`;
    }
    case "no-such-date":
      return "no such date";
    case "every": {
      const due = firstDue(when, now, { zone, daily: newDaily() });
      if (due === undefined) return `${showRepeats(when)}; never`;
      const first = "at" in due ? local(due.at, zone) : due.day;
      return `${showRepeats(when)}; first ${first}`;
    }
  }
}

const showValue = (value: unknown, phrase: Phrase): string =>
  typeof value === "object" && value !== null
    ? showWhen(value as When | Repeats, phrase)
    : String(value);

/** What a reader makes of the whole phrase. The choices of a question are sorted. */
function heard(read: SlotReader, phrase: Phrase): string {
  const { words } = toWords(phrase.phrase);
  const whole = read(words, 0, listening(phrase)).find(({ next }) => next === words.length);
  if (whole === undefined) return "not read";
  const { value } = whole;
  if (isUnreadable(value)) return "no number";
  if (!isUnsettled(value)) return showValue(value, phrase);
  const choices = value.choices.map((choice) => showValue(choice.value, phrase));
  return `ask ${choices.map((choice) => choice.split(";")[0]).join(" / ")}`;
}

const asked = (means: string): boolean => /^(?:ask|no |not )|never$/.test(means);

const files: readonly (readonly [string, SlotReader])[] = [
  ["when.txt", readers.when],
  ["repeats.txt", readers.repeats],
  ["past.txt", readPastDate],
  ["durations.txt", readDuration],
];

describe.each(files)("%s", (file, read) => {
  test.each(phrasesIn(file))("$phrase -> $means ($zone)", (phrase) => {
    const sorted = (text: string): string =>
      text.startsWith("ask ") ? text.slice(4).split(" / ").toSorted().join(" / ") : text;
    expect(sorted(heard(read, phrase))).toBe(sorted(phrase.means));
  });
});

test("at least 200 phrases, none misread, at least nine in ten taken without a question", () => {
  const all = files.flatMap(([file, read]) =>
    phrasesIn(file).map((phrase) => ({ ...phrase, heard: heard(read, phrase) })),
  );
  const accepted = all.filter((one) => !asked(one.heard));
  // Nonsense is there to be asked about; nobody counts it as a phrase to be taken.
  const sense = all.filter(({ means }) => !/^(?:no |not )|never$/.test(means));
  const order = (text: string): string => text.replace("ask ", "").split(" / ").toSorted().join();
  expect(all.length).toBeGreaterThanOrEqual(200);
  expect(accepted.filter((one) => one.heard !== one.means)).toEqual([]);
  expect(all.filter((one) => order(one.heard) !== order(one.means))).toEqual([]);
  expect(accepted.length / sense.length).toBeGreaterThanOrEqual(0.9);
});
