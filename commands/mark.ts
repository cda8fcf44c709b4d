import { z } from "zod";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import {
  isSettled,
  rollJson,
  rollJsonKeys,
  rollLine,
  rollsMeant,
} from "../src/commands/roll-text.ts";
import { textField, traitsField, withTraits } from "../src/commands/traits.ts";
import { checkRollName, explainName, spreadName } from "../src/domain/film/name-roll.ts";
import { callRolls } from "../src/domain/film/roll.ts";
import { answer, refuse } from "../src/reply/reply.ts";

const STOPS = "I know pushes and pulls of 1, 2 or 3 whole stops. Give one of these.";

export const markCommand = defineCommand({
  name: "mark",
  summary: "Say what stands on a roll, its push, rating, name, or that it is important.",
  topic: "film",
  sentences: [
    "[mark|set] {rolls} [is|are|as|was|were] [all] {traits}",
    "mark {rolls}",
    "mark [a] [roll|film]",
    "push {rolls} [by] {push}",
    "pull {rolls} [by] {pull}",
    "(call|name|rename) {rolls} {name}",
    "(note|remark|write) [down] (for|on|about) {rolls} {note}",
    "{rolls} (note|remark) {note}",
    "{rolls} (is|are) [of] (film|stock) {stock}",
  ],
  slots: { pull: "push", name: "newName", note: "text", stock: "text" },
  examples: ["mark roll 3 C-41", "roll beach is black and white", "push roll 3 two stops"],
  fields: z.object({
    rolls: z.object(
      { ids: z.array(z.string()), unknown: z.array(z.string()) },
      "Which roll? Say its number or its name.",
    ),
    traits: traitsField.optional(),
    push: z.number().int(STOPS).min(-3, STOPS).max(3, STOPS).optional(),
    pull: z.number().int(STOPS).min(-3, STOPS).max(3, STOPS).optional(),
    name: z.string().max(30, "Give it a name of one or two short words.").optional(),
    stock: textField.optional(),
    note: textField.optional(),
  }),
  changes: true,
  values: { rolls: `one entry a roll: ${rollJsonKeys}` },
  run({ bench }, wanted) {
    const found = rollsMeant(bench, wanted.rolls);
    if ("reply" in found) return found.reply;
    const { rolls } = found;
    const { push, pull, note, stock } = wanted;
    const traits = {
      ...wanted.traits,
      ...(push === undefined ? {} : { push }),
      ...(pull === undefined ? {} : { push: -Math.abs(pull) }),
    };
    const name = (wanted.name ?? traits.name)?.toLowerCase().trim();
    const nothing = Object.keys(traits).length === 0 && name === undefined;
    if (nothing && note === undefined && stock === undefined) {
      return askFor(
        "mark",
        { rolls: wanted.rolls },
        "traits",
        `What stands on ${callRolls(rolls)}: C-41, E-6, ECN-2 or black and white?`,
      );
    }
    // A note can be made of a roll that is done; what it is cannot be changed any more.
    if (!nothing || stock !== undefined) {
      for (const roll of rolls) {
        const settled = isSettled(bench, roll);
        if (settled !== undefined) return settled;
      }
    }
    if (name !== undefined) {
      const own = rolls.map(({ id }) => id);
      const trouble = checkRollName(name, Object.values(bench.rolls), own);
      if (trouble !== undefined) {
        return refuse(trouble.kind, explainName(trouble), {
          say: "That name is taken or sounds alike. Give it another name.",
          facts: { name: trouble.name },
        });
      }
    }
    const names = spreadName(name, rolls.length);
    const changed = rolls.map((roll, at) => {
      const named = names[at];
      return {
        ...withTraits(roll, traits),
        ...(named === undefined ? {} : { name: named }),
        ...(stock === undefined ? {} : { stock }),
        ...(note === undefined ? {} : { note }),
      };
    });
    const [only] = changed;
    return {
      bench: {
        ...bench,
        rolls: { ...bench.rolls, ...Object.fromEntries(changed.map((roll) => [roll.id, roll])) },
      },
      reply: answer({
        title:
          changed.length === 1 && only !== undefined
            ? rollLine(only)
            : `Noted for ${callRolls(changed)}`,
        lines: changed.length === 1 ? [] : changed.slice(0, 30).map(rollLine),
        say: `Noted for ${changed.length === 1 ? `roll ${only?.number ?? ""}` : `${changed.length} rolls`}.`,
        facts: { rolls: changed.slice(0, 200).map(rollJson) },
      }),
    };
  },
});
