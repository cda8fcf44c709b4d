import type { BottleLook } from "../domain/chemistry/look.ts";
import { workBefore } from "../domain/chemistry/work-before.ts";
import { developerTime } from "../domain/process/developer-time.ts";
import { type Bath, isColour, isDeveloper, type Sheet } from "../domain/process/sheet.ts";
import { LAYERS_CAUTION } from "../domain/temperature/compensate.ts";
import { explainCorrection } from "../domain/temperature/corrections.ts";
import { type Celsius, type Seconds, seconds } from "../domain/units/quantity.ts";
import { plain, sayDuration, showDuration, showTemperature } from "../domain/units/show.ts";
import { answer, type Reply, refuse, type Shown } from "../reply/reply.ts";
import { coldFactor, coldWork } from "./cold-work.ts";
import { declined } from "./declined.ts";
import { correctionFigures, correctionLines } from "./developing.ts";
import { publishedTimes } from "./published-times.ts";

type Made = Readonly<Record<string, Shown>>;

/**
 * The time of a bath at another temperature than its own: worked out, estimated, or refused.
 *
 * @param look    the developer bottle whose film counts
 * @param stands  what is said of that bottle
 */
export function timeAtReply(
  sheet: Sheet,
  bath: Bath,
  at: Celsius,
  look: BottleLook | undefined,
  stands: readonly string[],
  cautions: readonly string[],
): Reply {
  const warm = { temp_c: { value: at, origin: { kind: "told" } } } satisfies Record<string, Shown>;
  const facts = {
    sheet: sheet.name,
    bath: bath.name,
    sense: bath.sense,
    ...(look === undefined ? {} : { bottle: look.bottle.name }),
  };
  const given = (time: Seconds, how: string, lines: readonly string[], made: Made = {}): Reply =>
    answer({
      title: `${bath.name} at ${showTemperature(at)}: ${bath.sense === "exact" ? "exactly" : "at least"} ${showDuration(time)}`,
      say: `${bath.name}: ${sayDuration(time)}.`,
      lines,
      figures: {
        ...warm,
        time_s: { value: time, origin: { kind: "computed", source: how } },
        ...made,
      },
      facts,
      cautions: [...cautions, ...(isColour(sheet.process) ? [LAYERS_CAUTION.text] : [])],
      working: lines,
    });
  if (!isDeveloper(bath.kind)) {
    // Without a time of its own any will do: only whether the rule reaches so far is asked.
    const cold = coldWork(sheet, bath, bath.time === undefined ? seconds(60) : undefined, at);
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
    return given(cold.found.time.value, how, [how]);
  }
  const before = look === undefined ? undefined : workBefore(look.bottle, bath.mix?.total.value);
  const time = developerTime(bath, before, undefined, at);
  if (time === undefined) {
    return refuse("no-figures", `The ${sheet.name} sheet has no time for ${bath.name}.`, {
      facts,
      lines: publishedTimes(sheet, bath),
    });
  }
  if (!time.ok) return declined(time.error, explainCorrection(time.error), { facts });
  const { estimate, corrections, base, beyondTable } = time.value;
  const changes = corrections.length > 1 || estimate !== undefined || before !== undefined;
  const made = [
    ...(changes ? correctionLines(time.value) : []),
    ...(beyondTable
      ? ["Its re-use table ends before this: the last row was taken. Mix fresh."]
      : []),
    ...stands,
  ];
  if (estimate === undefined) {
    const how =
      corrections.find(({ kind }) => kind === "temperature")?.how ??
      "at the sheet's own temperature, as near as it matters";
    const figures = before === undefined ? {} : correctionFigures(time.value);
    return given(
      time.value.time.value,
      how,
      made.includes(`  ${how}`) ? made : [how, ...made],
      figures,
    );
  }
  const { from, to, how } = estimate;
  const origin = { kind: "computed", source: how } as const;
  return answer({
    title: `${bath.name} at ${showTemperature(at)}: estimate, ${showDuration(from)} to ${showDuration(to)}`,
    say: `Estimate: ${showDuration(from)} to ${showDuration(to)}. Better, bring it nearer.`,
    lines: [how, `The sheet's own: ${showDuration(base.value)} at its temperature.`, ...made],
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
