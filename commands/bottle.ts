import { defineCommand } from "../src/commands/define-command.ts";
import { newBottleFields, newBottleValues, putUp } from "../src/commands/new-bottle.ts";

const more =
  "(mixed|made) [on] {mixed} / {mixed} / (called|named|as) {name} / with {used} (rolls|units) [done|on it|used] / {role} / [is] {fill} / in [a|an] {container} / (kept|stored|standing) {place} / by {by}";

export const bottleCommand = defineCommand({
  name: "bottle",
  summary: "Put a solution in a bottle: it gets a spoken name, a mark, a date and a label.",
  topic: "bottle",
  sentences: [
    `bottle [up] [a] {solution} <[of] {volume} / ${more}>`,
    `bottle [up] [a] {volume} [of] {solution} <${more}>`,
    "(new|add|another) bottle [of] [{solution}] <[of] {volume} / (mixed|made) [on] {mixed} / (called|named) {name}>",
    `[i|we] [have] (mixed|made) [up] [a] {volume} [of] {solution} <[on] {mixed} / (called|named|as) {name} / {role} / [is] {fill} / in [a|an] {container} / by {by}>`,
    "(bottle|bottled|[i|we] [have] bottled) (it|this) <(called|named|as) {name}>",
    "[i|we] [have] bottled (called|named|as) {name}",
    "bottle",
  ],
  slots: {
    mixed: "mixedDate",
    notBefore: "mixedDate",
    name: "newName",
    by: "person",
    used: "count",
    sure: "yes",
  },
  examples: [
    "bottle developer 1 quart mixed yesterday",
    "bottle 1 litre of blix called Walnut",
    "bottle developer 1 litre mixed today half full in glass",
  ],
  fields: newBottleFields,
  changes: true,
  values: newBottleValues,
  run: (at, wanted) => putUp("bottle", at, wanted),
});
