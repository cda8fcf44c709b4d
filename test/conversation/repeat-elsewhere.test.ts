import { beforeAll, expect, test } from "vitest";
import type { Command } from "../../src/commands/define-command.ts";
import { loadCommands } from "../../src/commands/registry.ts";
import { sessionOf } from "../../src/commands/session-of.ts";
import { newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { forSharing } from "../../src/domain/record/for-sharing.ts";
import { repeatableOf } from "../../src/domain/record/repeatable.ts";
import { celsius, celsiusDifference, seconds } from "../../src/domain/units/quantity.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { benchWith, evening, runOf, stageOf, washOf } from "../support/runs.ts";

let commands: readonly Command[] = [];
beforeAll(async () => {
  commands = await loadCommands();
});

/** INVENTED: 3:15 in its sheet, 40 s more for one stop. */
const pushed = stageOf({
  timeBase: seconds(195),
  time: seconds(235),
  temperature: celsius(38),
  tolerance: celsiusDifference(0.2),
  corrections: [{ kind: "push", by: seconds(40), how: "push 1" }],
});
const run = runOf([pushed, washOf()], { push: 1, film: [{ format: "120", count: 2 }] });

function block(): string {
  const made = repeatableOf(forSharing(sessionOf(benchWith(run), run)), run);
  if (!made.ok) throw new Error(made.error);
  return JSON.stringify(made.value);
}

/** Another bench that is told these things one after the other. */
function elsewhere() {
  let record = newRecord("other", "Europe/Lisbon");
  return {
    say(text: string): Reply {
      const after = turn(record, { text, who: "Bruno" }, evening, commands);
      record = after.record;
      return after.reply;
    },
    get bench() {
      return record.bench;
    },
  };
}

test("a block is shown line by line, stored on a yes, and run as it was run", () => {
  const other = elsewhere();
  const shown = other.say(block());
  expect(shown.kind).toBe("question");
  expect(shown.title).toMatch(/say start .+ 2 rolls of 120 pushed 1 stop.*Compare each line/);
  expect(shown.lines.join("\n")).toContain("developer time: exactly 3:15");
  expect(Object.keys(other.bench.sheets)).toEqual([]);
  const stored = other.say("yes");
  expect(stored.lines.join("\n")).toContain("from another bench");
  const [sentence] = /start .+ pushed 1 stop/.exec(shown.title) ?? [""];
  const planned = other.say(sentence);
  expect(planned.kind, planned.title).toBe("reply");
  const [next] = Object.values(other.bench.runs);
  expect(next).toMatchObject({ push: 1, film: [{ format: "120", count: 2 }] });
  expect(next?.stages.map(({ time }) => time)).toEqual([235, 195]);
});

test("a line of it can be corrected, and without a yes nothing is kept", () => {
  const other = elsewhere();
  other.say(block());
  const changed = other.say("change developer time to 3:30");
  expect(changed.title).toContain("3:30");
  other.say("stop teaching");
  expect(other.bench.sheets).toEqual({});
  expect(other.bench.draft).toBeUndefined();
});

test("a damaged block and one that cannot be are refused, whatever stands around them", () => {
  const other = elsewhere();
  expect(other.say(`here: ${block().slice(0, -9)}`).facts.reason).toBe("bad-block");
  const hot = block().replace('"temp_c":38', '"temp_c":88');
  expect(other.say(`try this ${hot} please`).facts.reason).toBe("implausible");
  expect(other.bench.draft).toBeUndefined();
});
