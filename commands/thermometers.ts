import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { offsetOf, recheckDue } from "../src/domain/temperature/thermometer.ts";
import { dateOf, showDate } from "../src/domain/timing/clock-text.ts";
import { celsiusDifference } from "../src/domain/units/quantity.ts";
import { showCelsius, showDifference } from "../src/domain/units/show.ts";
import { answer, type Json } from "../src/reply/reply.ts";

export const thermometersCommand = defineCommand({
  name: "thermometers",
  summary: "The thermometers of the bench, their offsets and their next check.",
  topic: "run",
  sentences: [
    "[show|list|what|which] [all] thermometers [do i have|do we have|are there]",
    "which thermometer is [right|the reference]",
  ],
  examples: ["thermometers"],
  fields: z.object({}),
  changes: false,
  values: {
    thermometers:
      "one entry each: name, reference, suspect, offset_c and at_c of the last check (or null), recheck_on (ISO date or null)",
  },
  run({ bench, now }) {
    const all = Object.values(bench.thermometers);
    if (all.length === 0) {
      return answer({
        title: "No thermometers yet.",
        lines: ["Say the glass thermometer is the reference, then hold the others against it."],
        say: "No thermometers yet.",
        facts: { thermometers: [] },
      });
    }
    const rows = all.map((thermometer) => {
      const { name, isReference, checks } = thermometer;
      const last = checks.at(-1);
      const due = recheckDue(thermometer);
      const suspect =
        bench.suspects?.some((one) => one.kind === "thermometer" && one.name === name) === true;
      const offset = last === undefined ? undefined : offsetOf(last);
      const row: Json = {
        name,
        reference: isReference === true,
        suspect,
        offset_c: offset ?? null,
        at_c: last?.read ?? null,
        recheck_on: due === undefined ? null : dateOf(due, bench.zone),
      };
      const state =
        isReference === true
          ? "the reference"
          : last === undefined || offset === undefined
            ? "never checked: its readings are unverified"
            : `${sayOffset(offset)} at ${showCelsius(last.read)}${due === undefined ? "" : due <= now ? "; its check is overdue" : `; check again by ${showDate(dateOf(due, bench.zone))}`}`;
      return { row, line: `${name}: ${state}${suspect ? "; SUSPECT" : ""}` };
    });
    return answer({
      title: all.length === 1 ? "1 thermometer" : `${all.length} thermometers`,
      lines: rows.map(({ line }) => line),
      say: `${all.length} thermometer${all.length === 1 ? "" : "s"} on the screen.`,
      figures: { thermometers: { value: rows.map(({ row }) => row), origin: { kind: "own log" } } },
    });
  },
});

const sayOffset = (offset: number): string =>
  Math.abs(offset) < 0.005
    ? "reads true"
    : `reads ${showDifference(celsiusDifference(Math.abs(offset)))} too ${offset > 0 ? "high" : "low"}`;
