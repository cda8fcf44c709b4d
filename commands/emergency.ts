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
  summary: "First aid in one breath: eyes, skin, burn, cut, swallowed, shock, can't breathe.",
  topic: "emergency",
  sentences: [
    "(emergency|accident|first aid)",
    "(there was|there is|we had|i had|it is) an (accident|emergency)",
    "(i|he|she|someone|somebody) (am|is|got) (hurt|injured)",
    "(i|he|she|someone|somebody) (hurt|injured) (my|his|her) (hand|finger|arm|foot|leg|head|back)",
    "[help] {kind}",
    "(i hurt myself|it hurts|i do not feel well|i feel bad)",
    "my (head|chest|stomach|throat|back|arm|leg|foot) hurts",
    "(i|we) need (help|a doctor|first aid)",
    "call [me] (a doctor|an ambulance|a ambulance|911|112|999|emergency)",
    "[please] help me [now|quick|quickly|fast]",
    "smells [really|very|so] (bad|awful|terrible|horrible|strong)",
  ],
  slots: { kind: "aid" },
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
          "Is anyone hurt? Emergency number first if anyone is in danger. Then tell me: eyes, skin, burn, cut, swallowed, shock, mercury, or can't breathe.",
        lines: [
          "Nobody is hurt? Say trouble when something went wrong with the film, help for what I can do.",
        ],
        say: "Anyone hurt? Emergency number. Eyes, skin, burn, cut, swallowed, shock, breathing?",
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
