import { z } from "zod";
import { bottleMeant, withBottle } from "../src/commands/bottle-meant.ts";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { failedTest } from "../src/domain/chemistry/look.ts";
import { trusted } from "../src/domain/session/suspicion.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const trustCommand = defineCommand({
  name: "trust",
  summary: "Take the suspect mark off a bottle, or set a failed test aside.",
  topic: "bottle",
  sentences: [
    "{bottle} is [all] (fine|sound|safe|good|ok|not suspect) [again|after all]",
    "[i] trust {bottle} [again|all the same|anyway]",
  ],
  slots: { sure: "yes" },
  examples: ["trust Acorn again"],
  fields: z.object({ bottle: z.string("Which bottle?"), sure: z.boolean().optional() }),
  changes: true,
  values: { bottle: "its name", why: "what it was suspect for" },
  run({ bench }, { bottle: id, sure }) {
    const meant = bottleMeant(bench, id);
    if ("reply" in meant) return meant.reply;
    const { bottle } = meant;
    const why =
      bottle.suspect?.why ?? (failedTest(bottle) ? "its last clip test failed" : undefined);
    if (why === undefined) {
      return refuse("not-suspect", `${bottle.name} is not marked as suspect, so nothing changes.`, {
        say: `${bottle.name} is not marked as suspect.`,
      });
    }
    if (sure === undefined) {
      return confirm(
        "trust",
        { bottle: id },
        "sure",
        `${bottle.name} is suspect: ${why}. Take the mark off?`,
        {
          lines: [
            bottle.suspect?.contaminated === true
              ? "No test proves it clean; what gets in stays in. Mixing fresh is safer."
              : `A passed clip test takes it off too: say clip test ${bottle.name}.`,
          ],
        },
      );
    }
    if (!sure) {
      return answer({
        title: `${bottle.name} stays suspect.`,
        say: `${bottle.name} stays suspect.`,
      });
    }
    return withBottle(
      bench,
      trusted(bottle),
      answer({
        title: `${bottle.name} is no longer suspect. The runs it touched stay on record.`,
        say: `${bottle.name} is no longer suspect.`,
        facts: { bottle: bottle.name, why },
      }),
    );
  },
});
