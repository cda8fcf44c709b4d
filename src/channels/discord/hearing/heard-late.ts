import { standingLine } from "../../../commands/run-lines.ts";
import { listeningOf } from "../../../conversation/listening.ts";
import { understand } from "../../../conversation/understand.ts";
import { liveRuns } from "../../../domain/session/find-run.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import { toWords } from "../../../language/words.ts";
import { instantOf } from "../delivery/id-instant.ts";
import type { Room } from "../rooms/room.ts";
import { runButtons } from "../words/buttons.ts";
import { cleanOutgoing } from "../words/clean-outgoing.ts";
import { type MessagePayload, payload } from "../words/message-payload.ts";
import type { Desk } from "./desk.ts";

/** After a lost line Discord brings what happened meanwhile: it is heard, but not at its moment. */

/** Commands that mean the moment at which they are said. */
const OF_THE_MOMENT: ReadonlySet<string> = new Set([
  ...["in", "out", "next", "ready", "wait", "skip", "stop", "start", "yes", "temperature"],
]);
/** Older than this, ms, a word at the sink is not taken for one said now. */
const STALE = 5000;
/** Older than this, ms, an interaction has failed for its user: Discord waits no longer. */
const FAILED = 3000;

const ageOf = (id: string, now: Instant): number => now - instantOf(id);

/** Its user was told that it failed, so it is not done behind their back. */
export const hasFailed = (id: string, now: Instant): boolean => ageOf(id, now) > FAILED;

/**
 * What is answered to a word at the sink that came late, when nothing is done with it; undefined
 * where it may be taken as said now.
 */
export function tooLate(
  room: Room,
  text: string,
  id: string,
  { commands }: Pick<Desk, "commands">,
): MessagePayload | undefined {
  const now = room.now();
  const age = ageOf(id, now);
  const { bench } = room.keeper.record;
  const runs = liveRuns(bench);
  if (age <= STALE || runs.length === 0) return undefined;
  const meant = understand(toWords(text), commands, listeningOf(bench, now));
  if (meant === undefined || !OF_THE_MOMENT.has(meant.command.name)) return undefined;
  return payload(
    [
      `**I was away and heard that ${Math.round(age / 1000)} s late, so I did nothing with it. Say it again if it still holds.**`,
      ...runs.map((run) => cleanOutgoing(standingLine(bench, run, now))),
    ].join("\n"),
    { buttons: runButtons(bench, room.key, now) },
  );
}
