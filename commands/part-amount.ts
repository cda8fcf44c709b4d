import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { nothingMixed, showStep, whatNow } from "../src/commands/walk-words.ts";
import type { Mixing, MixStep } from "../src/domain/session/mixing-walk.ts";
import { dueStep } from "../src/domain/session/mixing-walk.ts";
import { answer, oneBreath, refuse } from "../src/reply/reply.ts";

export const partAmountCommand = defineCommand({
  name: "part amount",
  summary: "While mixing: how much of a part, or of the water, goes in.",
  topic: "mix",
  sentences: [
    "(how much|how many (ml|grams)|what amount) [of] [the] {part} [is it|was it|again|do i need|do i put in|goes in|now|is due]",
    "how much (goes in|do i put in|do i pour|do i add) [now|next|first]",
  ],
  slots: { part: "partName" },
  examples: ["how much B", "how much water"],
  fields: z.object({ part: z.string().max(30).optional() }),
  changes: false,
  aside: true,
  values: {
    bath: "bath being mixed",
    named: "the part that was asked about",
    ml: "how much of it, mL; missing for a powder, or where all of it goes in",
    g: "how much of it, g",
    done: "true when it is in already",
  },
  run({ bench }, { part }) {
    const { mixing } = bench;
    if (mixing === undefined) return nothingMixed();
    const step = part === undefined ? dueStep(mixing) : stepNamed(mixing, part);
    if (step === undefined) {
      const none = `${mixing.bath} has no part ${part?.toUpperCase() ?? ""}.`;
      return refuse("no-such-part", `${none} ${whatNow(mixing).title}`, { say: none });
    }
    const done = mixing.steps.indexOf(step) < mixing.done;
    const title = `${showStep(step)}${done ? ", and it is in already" : ""}.`;
    const origin = { kind: "computed", source: "the batch that is being mixed" } as const;
    return answer({
      title,
      lines: done || step === dueStep(mixing) ? [] : [whatNow(mixing).title],
      say: oneBreath(title),
      facts: { bath: mixing.bath, named: step.name, done },
      figures: {
        ...(step.ml === undefined ? {} : { ml: { value: step.ml, origin } }),
        ...(step.g === undefined ? {} : { g: { value: step.g, origin } }),
      },
    });
  },
});

/** Water is the start water until it is in, and the water to the mark after the parts. */
function stepNamed(mixing: Mixing, named: string): MixStep | undefined {
  const due = dueStep(mixing);
  const word = named.toLowerCase();
  if (word === "water" && due?.kind === "top-up") return due;
  return mixing.steps.find(({ name }) => name.toLowerCase() === word);
}
