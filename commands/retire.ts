import { z } from "zod";
import { confirm, defineCommand } from "../src/commands/define-command.ts";
import { bathCautions } from "../src/data/safety.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { dateOf } from "../src/domain/timing/clock-text.ts";
import { showUnits } from "../src/domain/units/show.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const retireCommand = defineCommand({
  name: "retire",
  summary: "Take a bottle out of use; its record stays.",
  topic: "bottle",
  sentences: ["(retire|discard|throw (out|away)|empty|get rid of|bin) [the] [bottle] {bottle}"],
  slots: { sure: "yes" },
  examples: ["retire Acorn"],
  fields: z.object({ bottle: z.string("Which bottle?"), sure: z.boolean().optional() }),
  changes: true,
  values: { bottle: "its name", units: "film it did, units of 80 sq in" },
  run({ bench, now }, { bottle, sure }) {
    const found = bench.bottles[bottle];
    if (found === undefined) return refuse("no-such-bottle", "I know no such bottle. Say bottles.");
    const busy = liveRuns(bench).find((run) => run.stages.some((stage) => stage.bottle === bottle));
    if (busy !== undefined) {
      return refuse(
        "in-use",
        `${found.name} is in use in ${busy.tank}. Finish or stop that run first.`,
        {
          say: `${found.name} is in use. Finish the run first.`,
        },
      );
    }
    if (sure === undefined)
      return confirm("retire", { bottle }, "sure", `Retire ${found.name}, ${found.bath}?`);
    if (!sure) return answer({ title: `${found.name} stays.`, say: `${found.name} stays.` });
    return {
      bench: {
        ...bench,
        bottles: { ...bench.bottles, [bottle]: { ...found, retiredOn: dateOf(now, bench.zone) } },
      },
      reply: answer({
        title: `${found.name} is retired after ${showUnits(found.used)}. Cross out the label now.`,
        lines: [
          "Where it may go depends on your drain and your council: ask them, and read the maker's sheet.",
          ...(bathCautions[found.bath] ?? [])
            .filter(({ when }) => when.includes("retire"))
            .map(({ text }) => text),
        ],
        say: `${found.name} is retired. Cross out the label now.`,
        facts: { bottle: found.name },
        figures: { units: { value: found.used, origin: { kind: "own log" } } },
      }),
    };
  },
});
