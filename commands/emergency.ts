import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { emergencies } from "../src/data/safety.ts";
import { answer } from "../src/reply/reply.ts";

/**
 * The conversation hears an emergency word before anything else, in every mode and from everyone,
 * and asks nothing. Stage clocks run on in silence.
 */
export const emergencyCommand = defineCommand({
  name: "emergency",
  summary: "First aid in one breath: eyes, splash, burn, swallowed, shock, can't breathe.",
  topic: "emergency",
  sentences: ["(emergency|accident|first aid|i am hurt|someone is hurt|help me now)"],
  examples: ["eyes", "swallowed"],
  fields: z.object({ kind: z.string().optional() }),
  who: "anyone",
  changes: false,
  values: {
    kind: "which emergency",
    grade: "how well the wording is founded",
    first_aid: "true: to be told in every mode",
  },
  run(_, { kind }) {
    const found = emergencies.find(({ id }) => id === kind);
    if (found === undefined) {
      return answer({
        title:
          "Emergency number first if anyone is in danger. Then tell me: eyes, burn, swallowed, shock, or can't breathe.",
        say: "In danger? Emergency number first. Eyes, burn, swallowed, shock, breathing?",
        facts: { kind: "unknown", first_aid: true },
      });
    }
    return answer({
      title: found.say,
      lines: found.lines,
      say: found.say,
      cautions: ["I am no doctor. A person outranks any film."],
      facts: { kind: found.id, grade: found.grade, first_aid: true },
      working: [`Founded on: ${found.grade}.`],
    });
  },
});
