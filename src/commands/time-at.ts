import { developerTime } from "../domain/process/developer-time.ts";
import { type Bath, isColour, isDeveloper, type Sheet } from "../domain/process/sheet.ts";
import { LAYERS_CAUTION } from "../domain/temperature/compensate.ts";
import { explainCorrection } from "../domain/temperature/corrections.ts";
import type { Celsius, Seconds } from "../domain/units/quantity.ts";
import { plain, sayDuration, showDuration, showTemperature } from "../domain/units/show.ts";
import { answer, type Reply, refuse, type Shown } from "../reply/reply.ts";
import { coldFactor, coldWork } from "./cold-work.ts";
import { declined } from "./declined.ts";

/** The time of a bath at another temperature than its own: worked out, estimated, or refused. */
export function timeAtReply(
  sheet: Sheet,
  bath: Bath,
  at: Celsius,
  cautions: readonly string[],
): Reply {
  const warm = { temp_c: { value: at, origin: { kind: "told" } } } satisfies Record<string, Shown>;
  const facts = { sheet: sheet.name, bath: bath.name, sense: bath.sense };
  const given = (time: Seconds, how: string, more: readonly string[]): Reply =>
    answer({
      title: `${bath.name} at ${showTemperature(at)}: ${bath.sense === "exact" ? "exactly" : "at least"} ${showDuration(time)}`,
      say: `${bath.name}: ${sayDuration(time)}.`,
      lines: [how, ...more],
      figures: { ...warm, time_s: { value: time, origin: { kind: "computed", source: how } } },
      facts,
      cautions: [...cautions, ...(isColour(sheet.process) ? [LAYERS_CAUTION.text] : [])],
      working: [how, ...more],
    });
  if (!isDeveloper(bath.kind)) {
    const cold = coldWork(sheet, bath, undefined, at);
    const grows = bath.time === undefined ? coldFactor(sheet, bath, at) : undefined;
    if (grows !== undefined) {
      const origin = { kind: "computed", source: grows.how } as const;
      return answer({
        title: `${bath.name} at ${showTemperature(at)}: ${plain(grows.factor, 2)} times its normal time`,
        say: `${bath.name}: ${plain(grows.factor, 2)} times its normal time.`,
        lines: [grows.how, `The ${sheet.name} sheet has no time for it.`],
        figures: { ...warm, factor: { value: grows.factor, origin } },
        facts,
        cautions,
        working: [grows.how],
      });
    }
    if (cold === undefined) {
      return refuse(
        "no-rule",
        `I know no rule for ${bath.name} at ${showTemperature(at)}: keep it at its own temperature.`,
        { say: `No rule for ${bath.name} at that temperature.`, facts },
      );
    }
    if ("reply" in cold) return cold.reply;
    const how = cold.found.corrections[0]?.how ?? "";
    return given(cold.found.time.value, how, []);
  }
  const time = developerTime(bath, undefined, undefined, at);
  if (time === undefined) {
    return refuse("no-figures", `The ${sheet.name} sheet has no time for ${bath.name}.`, { facts });
  }
  if (!time.ok) return declined(time.error, explainCorrection(time.error), { facts });
  const { estimate, corrections, base } = time.value;
  if (estimate === undefined) {
    const how = corrections.at(-1)?.how ?? "at the sheet's own temperature, as near as it matters";
    return given(time.value.time.value, how, []);
  }
  const { from, to, how } = estimate;
  const origin = { kind: "computed", source: how } as const;
  return answer({
    title: `${bath.name} at ${showTemperature(at)}: estimate, ${showDuration(from)} to ${showDuration(to)}`,
    say: `Estimate: ${showDuration(from)} to ${showDuration(to)}. Better, bring it nearer.`,
    lines: [how, `The sheet's own: ${showDuration(base.value)} at its temperature.`],
    figures: {
      ...warm,
      estimate_from_s: { value: from, origin },
      estimate_to_s: { value: to, origin },
    },
    facts,
    cautions: [...cautions, ...(isColour(sheet.process) ? [LAYERS_CAUTION.text] : [])],
    working: [how],
  });
}
