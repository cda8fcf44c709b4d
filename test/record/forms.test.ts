import fc from "fast-check";
import { expect, test } from "vitest";
import { sharedJson } from "../../src/commands/session-json.ts";
import { sessionMarkdown } from "../../src/commands/session-markdown.ts";
import { sessionOf } from "../../src/commands/session-of.ts";
import { sessionLines } from "../../src/commands/session-text.ts";
import { forSharing } from "../../src/domain/record/for-sharing.ts";
import { sessionPicture } from "../../src/picture/session-picture.ts";
import { arbitrarySession, secrets } from "../support/arbitrary-session.ts";
import { benchSession } from "../support/bench-session.ts";

const { bench, run } = benchSession();
const whole = sessionOf(bench, run);

test("no form that is shared holds anything private", () => {
  const hidden = fc.property(arbitrarySession, (one) => {
    const shared = forSharing(sessionOf(one.bench, one.run));
    const words = sessionLines(shared);
    const forms = [
      words.join("\n"),
      sessionMarkdown(shared),
      sharedJson(shared),
      sessionPicture(shared, words, "wide").svg,
      sessionPicture(shared, words, "phone").svg,
    ];
    for (const form of forms) {
      for (const secret of Object.values(secrets)) {
        expect(form.toLowerCase()).not.toContain(secret.toLowerCase());
      }
    }
  });
  fc.assert(hidden, { numRuns: 200 });
});

test("what is private stands in the bench's own forms: it is left out, not lost", () => {
  const kept = fc.property(arbitrarySession, (one) => {
    const session = sessionOf(one.bench, one.run);
    expect(sessionLines(session).join("\n")).toContain(secrets.note);
    expect(sessionMarkdown(session)).toContain(secrets.note);
  });
  fc.assert(kept, { numRuns: 50 });
});

test("chat, Markdown and picture tell the same deviations and the same lesson", () => {
  const words = sessionLines(whole);
  const markdown = sessionMarkdown(whole);
  for (const deviation of whole.deviations) {
    expect(words).toContain(`Deviation: ${deviation}`);
    expect(markdown).toContain(deviation.replace(/[|<>*_#~!&]/g, "\\$&"));
  }
  expect(words).toContain(`Lesson: ${whole.lesson.text}`);
  expect(markdown).toContain(whole.lesson.text);
});

/** Columns of a table's row: bars that are not escaped. */
const columns = (row: string): number => row.replace(/\\./g, "").split("|").length - 2;

test("names cannot break a table, make a heading or become markup", () => {
  const text = fc.string({ unit: fc.constantFrom(..."|#*<>`[]()\\\n _ab&!-"), maxLength: 20 });
  const sound = fc.property(text, text, text, (tank, bath, note) => {
    const [first = whole.stages[0], ...rest] = whole.stages;
    if (first === undefined) throw new Error("a session without a bath");
    const markdown = sessionMarkdown({
      ...whole,
      tank,
      stages: [{ ...first, bath }, ...rest],
      private: { ...whole.private, notes: [{ at_s: 1, text: note }] },
    });
    const lines = markdown.split("\n");
    const plain = sessionMarkdown(whole).split("\n");
    const headings = (all: readonly string[]) => all.filter((line) => /^#+ /.test(line)).length;
    // One private part more where there was none before.
    expect(headings(lines) - headings(plain)).toBeLessThanOrEqual(1);
    expect(lines.filter((line) => line.startsWith("|")).length).toBe(
      plain.filter((line) => line.startsWith("|")).length,
    );
    let width = 0;
    for (const line of lines) {
      if (!line.startsWith("|")) {
        width = 0;
        continue;
      }
      width ||= columns(line);
      expect(columns(line), line).toBe(width);
    }
    expect(markdown.replace(/\\./g, "")).not.toMatch(/[<`]/);
  });
  fc.assert(sound, { numRuns: 300 });
});
