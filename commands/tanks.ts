import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { tankJson, tankJsonKeys } from "../src/commands/own-tank.ts";
import { showTank } from "../src/domain/film/tank.ts";
import { answer } from "../src/reply/reply.ts";

export const tanksCommand = defineCommand({
  name: "tanks",
  summary: "The tanks of the bench with their reels and the solution they need.",
  topic: "film",
  sentences: [
    "[show|list|what|which] [all] tanks [do i have|do we have|are there]",
    "[show|list|what] reels [do i have]",
  ],
  examples: ["tanks"],
  fields: z.object({}),
  changes: false,
  values: { tanks: `one entry a tank: ${tankJsonKeys}` },
  run({ bench }) {
    const tanks = Object.values(bench.tanks);
    if (tanks.length === 0) {
      return answer({
        title: "No tanks yet.",
        lines: ["Say tank north has two 35 mm reels of 300 ml each."],
        say: "No tanks yet.",
        facts: { tanks: [] },
      });
    }
    return answer({
      title: tanks.length === 1 ? "1 tank" : `${tanks.length} tanks`,
      lines: tanks.map((tank) => `${tank.name}: ${showTank(tank)}`),
      say: `${tanks.length} tank${tanks.length === 1 ? "" : "s"}: ${tanks
        .slice(0, 5)
        .map(({ name }) => name)
        .join(", ")}.`,
      figures: { tanks: { value: tanks.map(tankJson), origin: { kind: "told" } } },
    });
  },
});
