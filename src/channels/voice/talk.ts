import type { Command } from "../../commands/define-command.ts";
import type { BenchKeeper } from "../../conversation/bench-keeper.ts";
import type { Instant } from "../../domain/units/quantity.ts";
import { type Reply, refuse } from "../../reply/reply.ts";
import type { EarEvent } from "../../speech/ear/listener.ts";
import { judge, type Passed, type VoiceThread } from "../../speech/trust/judge.ts";

export type TalkParts = {
  readonly bell: {
    now(): Instant;
    take(said: Passed & { readonly who: string }): Promise<Reply>;
  };
  readonly keeper: Pick<BenchKeeper, "record">;
  readonly commands: readonly Command[];
  readonly who: string;
  /** Without the key nothing is listened to. */
  readonly handsFree: boolean;
  /** Shows and speaks an answer of the bench. */
  readonly answer: (reply: Reply) => void;
  /** Shows and speaks a word of the channel's own. */
  readonly say: (line: string) => void;
  /** Shows the words that are given to the bench. */
  readonly heard: (text: string) => void;
  /** Shows a line that is not spoken. */
  readonly note: (line: string) => void;
  /** Is our own voice in the room? */
  readonly speaking: () => boolean;
  readonly faultReply: (error: unknown) => Reply;
};

export type Talk = { hear(event: EarEvent): Promise<void> };

/**
 * The talk between one person's voice and the bench: what the ear tells goes through the rules of
 * trust, and what passes is a message like any other.
 */
export function createTalk(parts: TalkParts): Talk {
  const { bell, keeper, commands, who } = parts;
  let thread: VoiceThread = {};
  /** Our own voice was in the room when this utterance began: it may be our own words. */
  let echo = false;

  const heard = async (event: Extract<EarEvent, { kind: "heard" }>): Promise<void> => {
    if (!parts.handsFree && !event.byKey) return;
    const { text, score, byKey, noisy } = event;
    const now = bell.now();
    const situation = { record: keeper.record, who, now, commands, echo };
    const { thread: next, judgement } = judge(thread, { text, score, byKey, noisy }, situation);
    thread = next;
    switch (judgement.kind) {
      case "ignore":
        return;
      case "say":
        if (event.torn) parts.note(TORN_LINE);
        return parts.say(judgement.line);
      case "ask":
        return parts.say(judgement.question);
      case "pass": {
        const { text: words, saidAt } = judgement;
        parts.heard(words);
        const said = { text: words, saidAt, who };
        return parts.answer(await bell.take(said).catch(parts.faultReply));
      }
    }
  };

  const take = async (event: EarEvent): Promise<void> => {
    switch (event.kind) {
      case "ready":
        return;
      case "began":
        echo = parts.speaking();
        return;
      case "heard":
        return heard(event);
      case "too-long":
        return parts.note(TOO_LONG_LINE);
      case "fault":
        return parts.answer(refuse("hearing", event.line));
    }
  };

  return {
    // What fails with one utterance leaves the ear to the next.
    hear: (event) =>
      take(event).catch((error: unknown) => parts.note(parts.faultReply(error).title)),
  };
}

const TOO_LONG_LINE = "That was one long talk: I listen again after a pause.";
const TORN_LINE = "That was too loud for the microphone: step back, or turn it down.";
