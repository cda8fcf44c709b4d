import { isDeveloper } from "../process/sheet.ts";
import { filmReadings } from "../session/film-readings.ts";
import type { ReadingTaken, Stage } from "../session/run.ts";
import { type Reread, reread } from "../temperature/reread.ts";
import { dateOf, showDate } from "../timing/clock-text.ts";
import { celsiusDifference } from "../units/quantity.ts";
import { plain } from "../units/show.ts";
import type { Evidence, RunFacts } from "./run-facts.ts";
import { bleaches, fixes, stagesWith } from "./run-facts.ts";

/** Where a bath has no band of its own, °C (own choice, no source). */
const BAND = celsiusDifference(0.5);
/** Beyond the band by more than this is no small departure any more, °C (own bound, no source). */
const MUCH = 0.5;

const degrees = (value: number): string => `${plain(value, 1)} °C`;
const bandOf = (stage: Stage): number => stage.tolerance ?? BAND;

/** What the readings say of developer, bleach, fix and wash, and of the thermometer itself. */
export function temperatureEvidence(facts: RunFacts): readonly Evidence[] {
  const { run } = facts;
  const read = (index: number): readonly ReadingTaken[] => filmReadings(run, index);
  const found: Evidence[] = [];
  for (const { stage, index } of stagesWith(run, isDeveloper)) {
    found.push(...developerReadings(facts, stage, read(index)));
    const { driftAnswer } = stage;
    if (driftAnswer !== undefined && driftAnswer.choice !== "adjust") {
      const text = `${stage.bath}: it was off its warmth, and you chose to ${driftAnswer.choice === "keep" ? "keep the time" : "log it"}`;
      found.push({ kind: "drift-kept", text });
    }
  }
  for (const { stage, index } of stagesWith(run, (kind) => fixes(kind) || bleaches(kind))) {
    const cold = read(index).find(
      ({ temperature }) =>
        stage.temperature !== undefined && temperature < stage.temperature - bandOf(stage) - 1e-9,
    );
    if (cold === undefined || stage.temperature === undefined) continue;
    const text = `${stage.bath}: ${degrees(cold.temperature)} read, ${degrees(stage.temperature)} ±${plain(bandOf(stage), 2)} planned`;
    if (fixes(stage.kind)) found.push({ kind: "fixing-cold", text });
    if (bleaches(stage.kind)) found.push({ kind: "bleaching-cold", text });
  }
  for (const { stage, index } of stagesWith(run, (kind) => kind === "wash")) {
    const warm = read(index).find(
      ({ temperature }) => stage.temperature !== undefined && temperature > stage.temperature + 3,
    );
    if (warm !== undefined && stage.temperature !== undefined) {
      const text = `${stage.bath}: ${degrees(warm.temperature)} read, ${degrees(stage.temperature)} planned`;
      found.push({ kind: "wash-warm", text });
    }
  }
  return [...found, ...jumps(facts), ...suspected(facts)];
}

function developerReadings(
  facts: RunFacts,
  stage: Stage,
  readings: readonly ReadingTaken[],
): readonly Evidence[] {
  const { temperature: aim } = stage;
  if (stage.inAt === undefined || aim === undefined) return [];
  if (readings.length === 0) {
    return [{ kind: "no-reading", text: `${stage.bath}: no temperature was read` }];
  }
  const anew = readings.flatMap((reading) => readAgain(facts, stage, reading));
  const [worstAnew] = anew.toSorted((a, b) => Math.abs(b.found.out) - Math.abs(a.found.out));
  if (worstAnew !== undefined) {
    const { reading, found, on } = worstAnew;
    const text = `${stage.bath}: ${degrees(reading.read ?? reading.temperature)} on the ${reading.thermometer} thermometer was really ${degrees(found.now)}, by its check on ${showDate(on)}; ${degrees(aim)} planned`;
    return [{ kind: found.out < 0 ? "thermometer-anew-low" : "thermometer-anew-high", text }];
  }
  const off = (reading: ReadingTaken): number => reading.temperature - aim;
  const [worst] = readings.toSorted((a, b) => Math.abs(off(b)) - Math.abs(off(a)));
  if (worst === undefined) return [];
  const by = off(worst);
  const band = bandOf(stage);
  const text = `${stage.bath}: ${degrees(worst.temperature)} read, ${degrees(aim)} ±${plain(band, 2)} planned`;
  if (Math.abs(by) <= band + 1e-9) {
    const verified = readings.every(
      ({ unverified, thermometer }) => unverified === undefined && thermometer !== undefined,
    );
    return [
      verified
        ? { kind: "developer-in-band", text }
        : { kind: "developer-in-band-unverified", text: `${text}, on a thermometer not verified` },
    ];
  }
  const much = Math.abs(by) > band + MUCH;
  const kind =
    by < 0
      ? much
        ? "developer-cold"
        : "developer-cool"
      : much
        ? "developer-hot"
        : "developer-warm";
  return [{ kind, text }];
}

type Again = { readonly reading: ReadingTaken; readonly found: Reread<never>; readonly on: string };

/** The reading as a later check of its thermometer shows it to have been. */
function readAgain(
  { thermometers, zone }: RunFacts,
  stage: Stage,
  reading: ReadingTaken,
): readonly Again[] {
  const { thermometer: name, read, temperature, at } = reading;
  if (name === undefined) return [];
  const key = name.toLowerCase();
  const own = Object.hasOwn(thermometers, key) ? thermometers[key] : undefined;
  if (own === undefined) return [];
  const past = {
    at,
    thermometer: own.name,
    read: read ?? temperature,
    corrected: temperature,
    aim: stage.temperature,
    tolerance: stage.tolerance,
  };
  return own.checks
    .toSorted((a, b) => a.at - b.at)
    .flatMap((check) => {
      const [found] = reread([past], own, check, BAND);
      if (found === undefined) return [];
      return [{ reading, found: found as Reread<never>, on: dateOf(check.at, zone) }];
    })
    .slice(0, 1);
}

/** From bath to bath, by the last reading of one and the first of the next. */
function jumps({ run, jump }: RunFacts): readonly Evidence[] {
  const byStage = run.stages.flatMap((stage, index) => {
    const own = filmReadings(run, index);
    const [first] = own;
    const last = own.at(-1);
    return first === undefined || last === undefined ? [] : [{ bath: stage.bath, first, last }];
  });
  const steps = byStage.slice(1).map((next, index) => {
    const before = byStage[index];
    const from = before?.last.temperature ?? next.first.temperature;
    return { from, to: next.first.temperature, bath: next.bath, before: before?.bath ?? "" };
  });
  const [worst] = steps.toSorted((a, b) => Math.abs(b.to - b.from) - Math.abs(a.to - a.from));
  if (worst === undefined) return [];
  const by = Math.abs(worst.to - worst.from);
  const text = `from ${worst.before} to ${worst.bath} it went from ${degrees(worst.from)} to ${degrees(worst.to)}, ${degrees(by)}`;
  return [{ kind: by > jump ? "baths-jump" : "baths-level", text }];
}

function suspected({ run, suspects }: RunFacts): readonly Evidence[] {
  const names = new Set(run.readings.map(({ thermometer }) => thermometer?.toLowerCase() ?? ""));
  return suspects.flatMap(({ kind, name, why }) => {
    if (kind === "thermometer" && names.has(name)) {
      return [{ kind: "thermometer-suspect", text: `the ${name} thermometer is suspect: ${why}` }];
    }
    if (kind === "sheet" && name === run.sheet) {
      return [{ kind: "sheet-suspect", text: `the sheet is suspect: ${why}` }];
    }
    return [];
  });
}
