import type { Command } from "../commands/define-command.ts";
import { newBench } from "../domain/session/bench.ts";
import { type Instant, instant } from "../domain/units/quantity.ts";
import { toWords } from "../language/words.ts";
import type { Reply } from "../reply/reply.ts";
import { callsForAid } from "./calls-for-aid.ts";
import { emergencyIn } from "./emergency-in.ts";
import { listeningOf } from "./listening.ts";
import { newRecord } from "./record.ts";
import { turn } from "./turn.ts";
import { understand } from "./understand.ts";

const NOBODY = "none";
const ZONE = "UTC";
const COMMAND = "emergency";

/** Of every sentence this is asked: nothing is made anew for it. */
const nobody = listeningOf(newBench(NOBODY, ZONE), instant(0));

/** A message, whoever it is from. */
type Said =
  | { readonly text: string }
  | { readonly command: string; readonly fields: Readonly<Record<string, unknown>> };

/**
 * First aid for whoever asks; undefined for anything else. It needs no bench and changes none, so
 * that no full disk, no damaged record, no queue and no darkness holds it up.
 */
export function firstAid(
  said: Said,
  now: Instant,
  commands: readonly Command[],
): Reply | undefined {
  if (!isForAid(said, now, commands)) return undefined;
  const message = { ...said, who: NOBODY, standing: "guest" as const };
  const { reply } = turn(newRecord(NOBODY, ZONE), message, now, commands);
  return reply.facts.first_aid === true ? { ...reply, clock: undefined } : undefined;
}

/** By one of its words wherever it stands, or by a sentence that means it and nothing else. */
function isForAid(said: Said, now: Instant, commands: readonly Command[]): boolean {
  if ("command" in said) {
    return (
      said.command === COMMAND ||
      Object.values(said.fields).some((value) => typeof value === "string" && callsForAid(value))
    );
  }
  const sentence = toWords(said.text);
  if (emergencyIn(sentence) !== undefined) return true;
  const emergency = commands.find(({ name }) => name === COMMAND);
  if (emergency === undefined) return false;
  return understand(sentence, [emergency], { ...nobody, now }) !== undefined;
}
