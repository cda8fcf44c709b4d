import { isDeveloper } from "../process/sheet.ts";
import type { Stage } from "../session/run.ts";
import { type Seconds, seconds, secondsBetween } from "../units/quantity.ts";
import { plain, showDuration } from "../units/show.ts";
import type { Evidence, RunFacts } from "./run-facts.ts";
import { bleaches, fixes, stabilizes, stagesWith } from "./run-facts.ts";

/** A developer's time may be off by this share before a fault is looked for in it (own bound, no source). */
const SHARE = 0.05;
/** A pour that took longer than this was slow, s: 10 to 20 s are usual (US Navy Photography (Basic), p. 266, read in excerpt). */
const SLOW = 40;
/** A wash this many times its minimum is long (own bound, no source). */
const LONG_WASH = 3;

const realOf = ({ inAt, outAt }: Stage): Seconds | undefined =>
  inAt === undefined || outAt === undefined ? undefined : secondsBetween(inAt, outAt);

const told = (stage: Stage, real: Seconds): string =>
  `${stage.bath}: ${showDuration(real)} real, ${showDuration(stage.time)} planned`;

/** How long film really was in each bath, how it was poured, and whether the beats were given. */
export function timeEvidence({ run }: RunFacts): readonly Evidence[] {
  const found: Evidence[] = [];
  for (const { stage } of stagesWith(run, isDeveloper)) {
    found.push(...developerTime(stage));
    if (stage.inAt === undefined) continue;
    const { beatsSilent = [], beatsLate = [], agitation, plusMinus, pourAt, inAt } = stage;
    const missed = beatsSilent.length + beatsLate.length;
    if (missed > 0) {
      const text = `${stage.bath}: ${missed} beat${missed === 1 ? "" : "s"} silenced by hold or told late`;
      found.push({ kind: "beats-silent", text });
    }
    if (missed === 0 && run.quiet) {
      found.push({ kind: "beats-silent", text: "the beats were silenced to the end by hold" });
    }
    if (agitation === undefined) {
      found.push({ kind: "no-beats", text: `${stage.bath}: the sheet gave no beats` });
    }
    const pouring =
      pourAt === undefined || plusMinus !== undefined ? 0 : secondsBetween(pourAt, inAt);
    if (pouring > SLOW) {
      const text = `${stage.bath}: ${showDuration(seconds(pouring))} from the pour cue to "in"`;
      found.push({ kind: "pour-slow", text });
    }
  }
  for (const { stage } of stagesWith(run, (kind) => !isDeveloper(kind))) {
    found.push(...minimum(stage));
  }
  return found;
}

function developerTime(stage: Stage): readonly Evidence[] {
  const real = realOf(stage);
  if (real === undefined || stage.skipped === true) return [];
  if (stage.plusMinus !== undefined || stage.outByClock === true) {
    const what = stage.plusMinus === undefined ? `"out" was not heard` : `"in" was not heard`;
    const doubt = stage.plusMinus === undefined ? "" : `, ±${plain(stage.plusMinus, 0)} s`;
    return [
      {
        kind: "developer-time-assumed",
        text: `${stage.bath}: ${what}, its time is assumed${doubt}`,
      },
    ];
  }
  const off = real - stage.time;
  const slack = Math.max(5, SHARE * stage.time);
  // "out" may be said as the pouring out begins: the drain lies inside the time.
  const kind =
    off < -stage.drain - slack
      ? "developer-short"
      : off > slack
        ? "developer-long"
        : "developer-timed";
  return [{ kind, text: told(stage, real) }];
}

/** Baths whose time is a minimum: what they are for decides what shortness means. */
function minimum(stage: Stage): readonly Evidence[] {
  const { kind } = stage;
  const roles = [
    ...(fixes(kind) ? ["fixing"] : []),
    ...(bleaches(kind) ? ["bleaching"] : []),
    ...(kind === "wash" ? ["wash"] : []),
    ...(stabilizes(kind) ? ["stabilizer"] : []),
  ];
  if (stage.skipped === true) {
    return roles.map((role) => ({ kind: `${role}-skipped`, text: `${stage.bath}: skipped` }));
  }
  const real = realOf(stage);
  if (real === undefined) return [];
  const short = real < stage.time - stage.drain - 1;
  if (short) return roles.map((role) => ({ kind: `${role}-short`, text: told(stage, real) }));
  const long = kind === "wash" && real > stage.time * LONG_WASH;
  return [
    ...(stage.outByClock === true || stage.plusMinus !== undefined
      ? []
      : roles.map((role) => ({ kind: `${role}-full`, text: told(stage, real) }))),
    ...(long ? [{ kind: "wash-long", text: told(stage, real) }] : []),
  ];
}
