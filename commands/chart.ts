import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { pastOfNamed, runNamed } from "../src/commands/run-named.ts";
import { runMeant } from "../src/commands/tanks.ts";
import { chartOf } from "../src/domain/session/chart.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { temperatureText } from "../src/picture/temperature-text.ts";
import { answer, type Json, refuse } from "../src/reply/reply.ts";

/** Without the dust of binary fractions. */
const tidy = (degrees: number | undefined): number | null =>
  degrees === undefined ? null : Number(degrees.toFixed(6));

export const chartCommand = defineCommand({
  name: "chart",
  summary:
    "The temperatures of a run against their bands and its baths, in words and as a picture.",
  topic: "run",
  sentences: [
    "[show|draw|make|give] [me|us] [the] [temperature|temperatures] (chart|graph|curve|picture) [(of|for|from) [the] (run|session|process|temperatures|temperature)] [(of|for|from|in) [tank] {tank} [tank]]",
    "(chart|graph|curve) [tank] {tank} [tank]",
    "[tank] {tank} [tank] [temperature] (chart|graph|curve|picture)",
    "[temperature] (chart|graph|curve) [of|for] [the] run [number] {number}",
    "(draw|plot) [the] (run|temperature|temperatures|readings) [(of|for|from|in) [tank] {tank} [tank]]",
  ],
  examples: ["chart", "temperature chart of tank north"],
  fields: z.object({ tank: z.string().optional(), number: z.number().optional() }),
  changes: false,
  aside: true,
  reads: pastOfNamed,
  values: {
    run: "id of the run",
    tank: "its name",
    stages:
      "one entry a bath: bath, aim_c, low_c, high_c (null where there is no band), readings: into_s, temp_c, verdict (inside, above, below, no band)",
    readings: "how many there are",
    outside: "how many lie outside their band",
    picture: "PNG file, wide, its name from the data folder on; missing where none was drawn",
    picture_svg: "the same as SVG",
    picture_phone: "PNG file for a phone held upright",
    picture_phone_svg: "the same as SVG",
  },
  run({ bench, past, now }, { tank, number }) {
    const any = tank === undefined && number === undefined;
    if (any && liveRuns(bench).length > 1) {
      const meant = runMeant(bench, tank, "chart");
      if ("reply" in meant) return meant.reply;
    }
    const run = (any ? liveRuns(bench)[0] : undefined) ?? runNamed(bench, past, { tank, number });
    if (run === undefined) {
      return refuse(
        "no-run",
        any ? "There is no run to draw yet. Say start developer." : "There is no such run to draw.",
        {
          say: any ? "There is no run to draw yet." : "There is no such run.",
        },
      );
    }
    const chart = chartOf(run, now);
    const [title = "", ...lines] = temperatureText(chart, bench.zone);
    const readings = chart.stages.flatMap((stage) => stage.readings);
    const outside = readings.filter(({ verdict }) => verdict === "above" || verdict === "below");
    const stages: Json[] = chart.stages.map(({ bath, aim, band, readings: read }) => ({
      bath,
      aim_c: aim ?? null,
      low_c: tidy(band?.low),
      high_c: tidy(band?.high),
      readings: read.map(({ into, temperature, verdict }) => ({
        into_s: into,
        temp_c: temperature,
        verdict,
      })),
    }));
    return answer({
      title,
      lines,
      say:
        readings.length === 0
          ? `${run.tank}: no temperature was read.`
          : `${run.tank}: ${readings.length} read, ${outside.length} outside the band.`,
      figures: { stages: { value: stages, origin: { kind: "own log" } } },
      facts: { run: run.id, tank: run.tank, readings: readings.length, outside: outside.length },
      picture: {
        kind: "temperature-chart",
        name: run.id,
        chart,
        zone: bench.zone,
      },
    });
  },
});
