import { z } from "zod";
import { bottleMeant, withBottle } from "../src/commands/bottle-meant.ts";
import { defineCommand } from "../src/commands/define-command.ts";
import { answer, oneBreath, refuse } from "../src/reply/reply.ts";

/** Places where food is kept or children reach (Arts Safety and common practice: keep kits away from both). */
const badPlace = /\b(fridge|refrigerator|freezer|larder|pantry|kitchen cupboard|nursery)\b/i;

export const moveCommand = defineCommand({
  name: "move",
  summary: "Say where a bottle stands.",
  topic: "bottle",
  sentences: [
    "{bottle} (stands|is kept|lives|is stored|is now|is) {place}",
    "[i|we] [have] (move|put|moved) {bottle} {place}",
    "where (is|does) {bottle} [stand|live|kept]",
  ],
  examples: ["Acorn stands in the cellar"],
  fields: z.object({
    bottle: z.string("Which bottle?"),
    place: z.string().max(60, "Say the place in a few words, like the cellar.").optional(),
  }),
  changes: true,
  values: { bottle: "its name", place: "where it stands" },
  run({ bench }, { bottle: id, place }) {
    const meant = bottleMeant(bench, id);
    if ("reply" in meant) return meant.reply;
    const { bottle } = meant;
    if (place === undefined) {
      if (bottle.place === undefined) {
        return refuse(
          "place-unknown",
          `You never told me where ${bottle.name} stands. Say ${bottle.name} stands in the cellar.`,
          { say: `I was never told where ${bottle.name} stands.` },
        );
      }
      return answer({
        title: `${bottle.name} stands ${bottle.place}.`,
        say: oneBreath(`${bottle.name} stands ${bottle.place}.`),
        facts: { bottle: bottle.name, place: bottle.place },
      });
    }
    return withBottle(
      bench,
      { ...bottle, place },
      answer({
        title: `${bottle.name} stands ${place}.`,
        say: oneBreath(`${bottle.name} stands ${place}.`),
        facts: { bottle: bottle.name, place },
        cautions: badPlace.test(place)
          ? ["Not among food, and out of children's reach: choose another place."]
          : [],
      }),
    );
  },
});
