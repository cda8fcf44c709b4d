import type { Bench } from "../domain/session/bench.ts";
import { weighAnew } from "../domain/session/drift-run.ts";
import { liveRuns } from "../domain/session/find-run.ts";
import { correctedAnew } from "../domain/session/past-readings.ts";
import type { Run } from "../domain/session/run.ts";
import type { Thermometer, ThermometerCheck } from "../domain/temperature/thermometer.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { plain } from "../domain/units/show.ts";
import type { Reply } from "../reply/reply.ts";
import { coldReply } from "./cold-reply.ts";
import type { Outcome } from "./define-command.ts";
import { type DriftParts, driftReply } from "./drift-reply.ts";

/**
 * An offset found while film is in a bath: the readings of open runs are corrected by it, and the
 * bath they were taken in is weighed anew, under the same rules as a reading.
 *
 * @param bench  with the check already kept
 * @param reply  what is said of the check itself
 */
export function rereadLive(
  bench: Bench,
  thermometer: Thermometer,
  check: ThermometerCheck,
  reply: Reply,
  now: Instant,
): Outcome {
  let told: { readonly bench: Bench; readonly reply: Reply } = { bench, reply };
  for (const run of liveRuns(bench)) {
    const after = correctedAnew(run, thermometer, check);
    if (after === run) continue;
    const done = weighedAnew(told.bench, after, thermometer.name, now);
    told = { bench: done.bench ?? told.bench, reply: joined(told.reply, done.reply) };
  }
  return told;
}

function weighedAnew(bench: Bench, run: Run, name: string, now: Instant): Outcome {
  const stage = run.stages[run.current];
  const last = run.readings.findLast((one) => one.stage === run.current);
  const weighed = weighAnew(run, run.current, now);
  const parts: DriftParts = {
    title: `${run.tank}: ${stage?.bath ?? "bath"} read anew${last === undefined ? "" : `, ${plain(last.temperature, 2)} °C`}.`,
    say: `${run.tank}: read anew.`,
    lines: [],
    facts: { tank: run.tank, bath: stage?.bath ?? null },
    figures: {},
    cautions: [],
  };
  if (weighed === undefined || last === undefined) {
    const title = `${run.tank}: its readings on the ${name} thermometer are corrected.`;
    return coldReply(bench, run, run.current, { ...parts, title }, now);
  }
  return driftReply(bench, run, run.current, weighed, parts, now);
}

/** One answer of both. What must be done or asked is what is said; of two questions the first. */
function joined(one: Reply, more: Reply): Reply {
  const acts = more.facts.drift === "replan" || more.ask !== undefined;
  const asks = one.ask === undefined ? more : one;
  return {
    ...one,
    kind: asks.ask === undefined ? one.kind : asks.kind,
    title: `${one.title} ${more.title}`,
    say: acts && one.ask === undefined ? more.say : one.say,
    lines: [...one.lines, ...more.lines],
    cautions: [...new Set([...one.cautions, ...more.cautions])],
    figures: { ...one.figures, ...more.figures },
    facts: { ...one.facts, ...more.facts },
    working: [...one.working, ...more.working],
    ...(asks.ask === undefined ? {} : { ask: asks.ask }),
  };
}
