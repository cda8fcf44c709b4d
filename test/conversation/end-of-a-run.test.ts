import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { instant, later } from "../../src/domain/units/quantity.ts";
import type { Reply } from "../../src/reply/reply.ts";

const commands = await loadCommands();

type Line = readonly [who: string, text: string, after?: number];

/** Several people say one thing after the other, each after so many seconds; what was answered. */
function said(...lines: readonly Line[]): readonly Reply[] {
  let record = newRecord("t", "UTC");
  let now = instant(Date.parse("2026-11-28T12:00:00Z"));
  return lines.map(([who, text, after = 1]) => {
    now = later(now, after);
    const taken = turn(record, { text, who, standing: "member" }, now, commands);
    record = taken.record;
    return taken.reply;
  });
}

const run: readonly Line[] = [
  ["Ana", "start developer for 3 minutes tank north"],
  ["Ana", "ready"],
  ["Ana", "in", 5],
  ["Ana", "out", 172],
];

test("the question at the end of a run may be answered by somebody else", () => {
  const replies = said(...run, ["Dora", "38.1 and 37.8"], ["Dora", "time"], ["Ana", "time"]);
  expect(replies[3]?.title).toContain("How warm was the developer");
  expect(replies[4]?.title).toContain("developer 38.1 °C at the start, 37.8 °C at the end");
});

test("what somebody else says is only taken for an answer where nothing else reads it", () => {
  const replies = said(...run, ["Dora", "how much water for 500 ml at 1+9"], ["Dora", "38 things"]);
  expect(replies[4]?.title).toContain("500 mL");
  expect(replies[5]?.title).toContain("I do not know what to do with");
});

test("the count said to be right leads on like yes", () => {
  const counted: readonly Line[] = [
    ["Ana", "bottle developer 1 litre mixed today"],
    ["Ana", "start developer for 3 minutes one roll of 120 tank north"],
    ["Ana", "ready"],
    ["Ana", "in", 5],
    ["Ana", "out", 172],
  ];
  const [asked, went] = said(...counted, ["Ana", "count is right"]).slice(4);
  expect(asked?.title).toContain("Right?");
  expect(went?.title).toMatch(/^The count is confirmed for Acorn\. How warm was the developer/);
  // Long after it nobody is asked.
  const [late] = said(...counted, ["Ana", "count is right", 3 * 3600]).slice(5);
  expect(late?.title).toBe("The count is confirmed for Acorn.");
});
