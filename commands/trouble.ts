import { z } from "zod";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { rescues } from "../src/data/rescues.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const troubleCommand = defineCommand({
  name: "trouble",
  summary: "Something went wrong at the tank: two questions, then what to do.",
  topic: "run",
  sentences: [
    "(trouble|help quick|problem|something went wrong|what now)",
    "trouble [with|the] {what}",
    "(light got in|i (opened|dropped) the (tank|lid)|the lid came off)",
  ],
  slots: { what: "text", detail: "text" },
  examples: ["trouble", "trouble light got in"],
  fields: z.object({ what: z.string().optional(), detail: z.string().optional() }),
  changes: false,
  aside: true,
  values: { what: "the trouble", detail: "the case", source: "where the verdict comes from" },
  run(_, { what, detail }) {
    const clockNote = "A running clock runs on.";
    if (what === undefined) {
      return askFor(
        "trouble",
        {},
        "what",
        "What happened? Is anyone hurt: say eyes, burn, swallowed, shock.",
        rescues.map(({ word, id }) => ({ word, value: id })),
        {
          say: "What happened: light, wrong bath, forgot, temperature, or spill?",
          lines: [clockNote],
        },
      );
    }
    const said = what.toLowerCase();
    const rescue =
      rescues.find(({ id, word }) => id === said || word === said) ??
      rescues.find(({ words }) => words.some((word) => said.includes(word)));
    if (rescue === undefined) {
      return refuse(
        "unknown-trouble",
        `I have no advice on "${what.slice(0, 60)}". Finish the bath by its clock and note it.`,
        {
          say: "I do not know that one. Finish by the clock.",
          lines: ["A wet film in a closed tank can wait in the wash while you think."],
        },
      );
    }
    const verdict = detail === undefined ? undefined : rescue.verdicts[detail.toLowerCase()];
    if (verdict === undefined) {
      return askFor(
        "trouble",
        { what: rescue.id },
        "detail",
        rescue.ask.title,
        rescue.ask.options,
        {
          lines: [clockNote],
        },
      );
    }
    return answer({
      title: verdict.say,
      lines: [...verdict.lines, "Say note and what happened, so that the record has it."],
      say: verdict.say,
      facts: { what: rescue.id, detail: detail ?? null, source: verdict.source },
      working: [`Founded on: ${verdict.source}.`],
    });
  },
});
