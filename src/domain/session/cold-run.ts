import { isColour } from "../process/sheet.ts";
import { err, ok, type Result } from "../result.ts";
import { type ColdError, type ColdRule, coldTime } from "../temperature/cold-time.ts";
import { type Celsius, celsius, type Seconds, seconds } from "../units/quantity.ts";
import type { Run } from "./run.ts";

/**
 * The minimum of a fixing or washing bath by what was read in it: as planned, or longer where it is
 * colder than it was planned for. Never shorter.
 *
 * @param rule  for this kind of bath
 * @returns s and how; undefined where the rule has no say: a colour process, a rehearsal, a warm
 *   bath; `too-cold` below the rule's end
 */
export function coldMinimum(
  run: Run,
  index: number,
  rule: ColdRule,
): Result<{ readonly time: Seconds; readonly how: string }, ColdError> | undefined {
  const stage = run.stages[index];
  if (stage === undefined || stage.sense !== "at least" || run.rehearsal !== undefined) {
    return undefined;
  }
  if (isColour(run.process) || !rule.baths.includes(stage.kind)) return undefined;
  const planned = stage.timeMeant ?? stage.time;
  const read = coldestRead(run, index);
  if (read === undefined) return ok({ time: planned, how: "no reading of it is left" });
  const aim = stage.temperature;
  const meant = aim === undefined ? undefined : coldTime(rule, planned, aim, aim);
  const cold = coldTime(rule, planned, read, aim);
  if (!cold.ok) return cold.error.kind === "too-cold" ? err(cold.error) : undefined;
  // The plan's time may be a cold bath's already: its own factor is in it.
  const factor = Math.max(1, cold.value.factor / (meant?.ok === true ? meant.value.factor : 1));
  return ok({ time: seconds(planned * factor), how: cold.value.how });
}

/** The coldest since film is in it; before that the last, since a bath can still be warmed. */
function coldestRead({ stages, readings }: Run, index: number): Celsius | undefined {
  const own = readings.filter(({ stage }) => stage === index).toSorted((a, b) => a.at - b.at);
  const inAt = stages[index]?.inAt;
  const wet = inAt === undefined ? [] : own.filter(({ at }) => at >= inAt);
  if (wet.length === 0) return own.at(-1)?.temperature;
  return celsius(Math.min(...wet.map(({ temperature }) => temperature)));
}
