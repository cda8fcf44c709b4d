import { type Origin, showOrigin } from "../domain/origin.ts";
import type { Bath } from "../domain/process/sheet.ts";
import type { Stage } from "../domain/session/run.ts";
import { plain, showCelsius, showDuration } from "../domain/units/show.ts";
import type { Json, Reply } from "../reply/reply.ts";
import { confirm } from "./define-command.ts";

type Recalled = { readonly bath: string; readonly what: string; readonly origin: Origin };

/** Figures of these baths that nobody read at a source; what the user gave is not among them. */
function recalledIn(timed: readonly Bath[], stages: readonly Stage[]): readonly Recalled[] {
  return stages.flatMap((stage, index) => {
    const bath = timed[index];
    const { time, temperature, tolerance, agitation } = bath ?? {};
    const told = stage.timeOrigin.kind === "told";
    const own = stage.temperatureOrigin?.kind !== "told";
    const sense = stage.sense === "exact" ? "exactly" : "at least";
    const all: readonly (Recalled | undefined)[] = [
      told || time === undefined
        ? undefined
        : { bath: stage.bath, what: `${sense} ${showDuration(time.value)}`, origin: time.origin },
      own && temperature !== undefined
        ? { bath: stage.bath, what: showCelsius(temperature.value), ...temperature }
        : undefined,
      own && tolerance !== undefined
        ? { bath: stage.bath, what: `±${plain(tolerance.value, 2)} °C`, ...tolerance }
        : undefined,
      agitation === undefined
        ? undefined
        : { bath: stage.bath, what: "its agitation", origin: agitation.initial.origin },
    ];
    return all.flatMap((one) => (one?.origin.kind === "from memory" ? [one] : []));
  });
}

const bathsOf = (found: readonly Recalled[]): readonly string[] => [
  ...new Set(found.map(({ bath }) => bath)),
];

/**
 * A figure that was never read at its source is no default: a run that would go by one asks first,
 * once, for that run alone. The yes stands in its record.
 *
 * @param wanted  what was asked for, with the answer to this question where it was given
 */
export function askRecalled(
  timed: readonly Bath[],
  stages: readonly Stage[],
  wanted: Readonly<Record<string, unknown>> & { readonly recalled?: boolean | undefined },
): { readonly reply: Reply } | { readonly notes: readonly string[] } {
  const found = recalledIn(timed, stages);
  if (found.length === 0) return { notes: [] };
  const baths = bathsOf(found);
  const names = baths.join(", ");
  if (wanted.recalled === true) {
    return { notes: [`By figures from memory, by an explicit yes, for this run alone: ${names}.`] };
  }
  const lines = found.map(({ bath, what, origin }) => `${bath}: ${what}  [${showOrigin(origin)}]`);
  const rows: Json[] = found.map(({ bath, what }) => ({ bath, figure: what }));
  return {
    reply: confirm(
      "start",
      wanted,
      "recalled",
      `From memory, not read at a source: figures of ${names}. Check them against your sheet. Go by them for this run?`,
      {
        say: `${baths.length === 1 ? `${names} is` : `${baths.length} baths are`} from memory. Check your sheet. Go by ${baths.length === 1 ? "it" : "them"}?`,
        working: lines,
        lines: [
          ...lines,
          "Better: say learn a sheet to teach me yours, or give a bath its time: start blix for 6:30.",
        ],
        facts: { recalled: rows },
      },
    ),
  };
}
