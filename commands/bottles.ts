import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { labelLines } from "../src/commands/label-text.ts";
import { liveBottles } from "../src/domain/session/bench.ts";
import { dateOf, daysBetween, showAge, showDate } from "../src/domain/timing/clock-text.ts";
import { plain, showUnits, showVolume } from "../src/domain/units/show.ts";
import { answer, type Json } from "../src/reply/reply.ts";

export const bottlesCommand = defineCommand({
  name: "bottles",
  summary: "Every bottle with its age and the film it has done.",
  topic: "bottle",
  sentences: [
    "[show|list|what] [all] bottles [do i have|do we have]",
    "(how old is|how old are|how is|show|about|label [for]|age of|units on|rolls on) [bottle] {bottle}",
    "how many (rolls|units) (has|on|did) {bottle} [done]",
    "[bottle] {bottle}",
  ],
  examples: ["bottles", "how old is Acorn", "label for Acorn"],
  fields: z.object({ bottle: z.string().optional() }),
  changes: false,
  values: {
    bottles: "one entry a bottle: bottle, mark, bath, volume_ml, mixed_on, age_days, units",
    label: "label text of the one bottle asked for, one entry a line",
  },
  run({ bench, now }, { bottle }) {
    const today = dateOf(now, bench.zone);
    const all = liveBottles(bench).filter(({ id }) => bottle === undefined || id === bottle);
    const first = all[0];
    if (first === undefined) {
      return answer({
        title: "No bottles yet.",
        lines: ["Say bottle developer 1 litre mixed today."],
        say: "No bottles yet.",
        facts: { bottles: [] },
      });
    }
    const rows: Json[] = all.map((one) => ({
      bottle: one.name,
      mark: one.mark,
      bath: one.bath,
      volume_ml: one.volume,
      mixed_on: one.mixedOn,
      age_days: daysBetween(one.mixedOn, today),
      units: one.used,
    }));
    const line = (one: typeof first): string =>
      `${one.name} (${one.mark}): ${one.bath}, ${showVolume(one.volume)}, ${showAge(daysBetween(one.mixedOn, today))} (mixed ${showDate(one.mixedOn)}), ${showUnits(one.used)} done`;
    const single = all.length === 1;
    const label = single && bottle !== undefined ? labelLines(first) : [];
    return answer({
      title: single ? line(first) : `${all.length} bottles`,
      lines: [...(single ? [] : all.map(line)), ...label.map((text) => `| ${text}`)],
      say: single
        ? `${first.name}: ${first.bath}, ${showAge(daysBetween(first.mixedOn, today))}, ${plain(first.used, 1)} units done.`
        : `${all.length} bottles: ${all
            .slice(0, 4)
            .map(({ name }) => name)
            .join(", ")}.`,
      figures: {
        bottles: { value: rows, origin: { kind: "own log" } },
      },
      facts: label.length > 0 ? { label } : {},
    });
  },
});
