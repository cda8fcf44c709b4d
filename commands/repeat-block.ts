import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { askNext } from "../src/commands/teaching.ts";
import { showFilm } from "../src/domain/film/load.ts";
import { showPush } from "../src/domain/film/roll.ts";
import { readRepeatable } from "../src/domain/record/read-repeatable.ts";
import type { Repeatable } from "../src/domain/record/repeatable.ts";
import { answersOf, wrongWith } from "../src/domain/teaching/answers-of-repeatable.ts";
import { dateOf, showDate } from "../src/domain/timing/clock-text.ts";
import { refuse } from "../src/reply/reply.ts";

/** A name no sheet of the bench goes by yet: "garden", else "garden 2". */
function freeName(wanted: string, taken: ReadonlyMap<string, string>): string {
  let name = wanted;
  for (let copy = 2; taken.has(name.toLowerCase()); copy += 1) name = `${wanted} ${copy}`;
  return name;
}

/** The plan that comes with it: what to say to do the same again, once the sheet is stored. */
function plan(name: string, { push, film }: Repeatable): string {
  const pushed = push === 0 ? "" : ` ${showPush(push)}`;
  const load = film.length === 0 ? "" : ` ${showFilm(film)}`;
  return `Its plan, once this is stored: say start ${name}${load}${pushed}.`;
}

export const repeatBlockCommand = defineCommand({
  name: "repeat block",
  summary: "Take a run another bench shared as repeatable: checked and shown line by line first.",
  topic: "sheet",
  sentences: [
    "(take|import|repeat|read) [this|the|a] (run|plan|block|repeatable) {block}",
    "(take|import|repeat|read) [this|the|a] (block|repeatable)",
  ],
  slots: { block: "text" },
  examples: ["take this block"],
  fields: z.object({
    block: z.string("Paste the whole line another bench gave out, from { to }."),
  }),
  changes: true,
  values: {
    asking: "id of the open question, right when all is answered",
    sheet: "the name it will have here",
    push: "stops of push of the run it is from",
  },
  run({ bench, now, who, listening }, { block }) {
    if (bench.draft !== undefined) {
      return refuse(
        "draft-open",
        "A sheet is being taught. Finish it, or say stop teaching, and paste the block again.",
        { say: "A sheet is open. Say stop teaching first." },
      );
    }
    const from = block.indexOf("{");
    const read = readRepeatable(from < 0 ? block : block.slice(from, block.lastIndexOf("}") + 1));
    if (!read.ok) return refuse("bad-block", read.error);
    const name = freeName(read.value.name, listening.names.sheet);
    const origin = `from another bench, taken ${showDate(dateOf(now, bench.zone))}`;
    const answers = answersOf(read.value, name, origin);
    const wrong = wrongWith(answers);
    if (wrong !== undefined) {
      return refuse("implausible", `I do not take that block. ${wrong}`, {
        say: "I do not take it: a figure cannot be.",
      });
    }
    const draft = { answers, by: who };
    const asked = askNext(draft, plan(name, read.value));
    return {
      bench: { ...bench, draft },
      reply: { ...asked, facts: { ...asked.facts, push: read.value.push } },
    };
  },
});
