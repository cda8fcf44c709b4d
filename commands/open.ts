import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { newBottleFields, newBottleValues, putUp } from "../src/commands/new-bottle.ts";

export const openCommand = defineCommand({
  name: "open",
  summary: "Put an opened concentrate on the shelf: its age counts from the day it was opened.",
  topic: "bottle",
  sentences: [
    "[i] [have] (open|opened) [a] [new] [bottle] {solution} concentrate <[of] {volume} / [on] {mixed} / (called|named) {name} / [is] {fill}>",
    "[i] [have] (open|opened) [a] [new] [bottle of] concentrate [of] {solution} <[of] {volume} / [on] {mixed} / (called|named) {name} / [is] {fill}>",
    "[i] [have] (open|opened) {volume} [of] {solution} concentrate <[on] {mixed} / (called|named) {name} / [is] {fill}>",
  ],
  slots: {
    mixed: "mixedDate",
    notBefore: "mixedDate",
    name: "newName",
    by: "person",
    used: "count",
    sure: "yes",
  },
  examples: ["opened fixer concentrate 500 ml today"],
  fields: newBottleFields.extend({
    mixed: z.string("When was it opened: today, yesterday, or a date?"),
  }),
  changes: true,
  values: newBottleValues,
  run: (at, wanted) => putUp("open", at, { ...wanted, role: "concentrate" }),
});
