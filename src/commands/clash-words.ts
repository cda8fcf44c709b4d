import type { Bench } from "../domain/session/bench.ts";
import { type Clash, freshClashes } from "../domain/session/clashes.ts";
import { runOfTank } from "../domain/session/find-run.ts";
import { currentStage } from "../domain/session/run.ts";
import { clockTime, isoInstant } from "../domain/timing/clock-text.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { plain, sayDuration } from "../domain/units/show.ts";
import type { Json, Reply } from "../reply/reply.ts";

type Side = Clash["one"];

const inTurn = ({ one, other }: Clash): readonly [Side, Side] =>
  one.at <= other.at ? [one, other] : [other, one];

const doing = ({ tank, what, bath, at }: Side, zone: string): string =>
  `${tank} ${what === "pour" ? "pours" : "pours out"} ${bath} at ${clockTime(at, zone)}`;

/** "North pours out developer at 19:33:24 and South pours out developer at 19:33:29, 5 s apart ..." */
function clashLine(bench: Bench, clash: Clash): string {
  const [first, second] = inTurn(clash);
  return `${doing(first, bench.zone)} and ${doing(second, bench.zone)}, ${plain(clash.apart, 0)} s apart. Neither can be moved any more: ${whatToDo(bench, clash)}`;
}

/** A bath whose time is a minimum can wait; an exact one cannot. */
function whatToDo(bench: Bench, clash: Clash): string {
  const waits = inTurn(clash).flatMap(({ tank }) => {
    const run = runOfTank(bench, tank);
    const stage = run === undefined ? undefined : currentStage(run);
    return stage?.sense === "at least" && stage.inAt !== undefined ? [{ tank, stage }] : [];
  });
  const [first] = waits;
  if (first === undefined)
    return "get a second pair of hands, or have both vessels open and ready.";
  return `leave ${first.tank} in its ${first.stage.bath} until the other is done, a little longer does it no harm.`;
}

const clashJson = (clash: Clash): Json => {
  const [first, second] = inTurn(clash);
  return {
    tanks: [first.tank, second.tank],
    baths: [first.bath, second.bath],
    at: [isoInstant(first.at), isoInstant(second.at)],
    apart_s: clash.apart,
  };
};

/** The same reply with the clashes that were made by what it did: said once. */
export function withClashes(before: Bench, after: Bench, reply: Reply, now: Instant): Reply {
  const found = freshClashes(before, after, now);
  const [first] = found;
  if (first === undefined) return reply;
  const [one, other] = inTurn(first);
  const short = `${one.tank} and ${other.tank} ${sayDuration(first.apart)} apart.`;
  const say = `${reply.say} ${short}`;
  return {
    ...reply,
    say: say.split(/\s+/).length > 12 ? reply.say : say,
    cautions: [...reply.cautions, ...found.map((clash) => clashLine(after, clash))],
    facts: { ...reply.facts, collide: found.map(clashJson) },
  };
}
