import { renderJson, renderText } from "../../src/channels/console/render.ts";
import { renderReply } from "../../src/channels/discord/words/render-reply.ts";
import { dailyLooks } from "../../src/commands/daily-looks.ts";
import type { Command } from "../../src/commands/define-command.ts";
import { announce } from "../../src/conversation/announce.ts";
import { announceReminders } from "../../src/conversation/announce-reminders.ts";
import { farewell } from "../../src/conversation/farewell.ts";
import type { BenchRecord } from "../../src/conversation/record.ts";
import { settleByClock } from "../../src/conversation/settle-runs.ts";
import { turn } from "../../src/conversation/turn.ts";
import { withBeatsTold } from "../../src/domain/record/beats-told.ts";
import { planLooks } from "../../src/domain/record/plan-looks.ts";
import { planDaily } from "../../src/domain/reminders/daily-message.ts";
import { decide, nextDue } from "../../src/domain/session/decide.ts";
import { type Instant, later } from "../../src/domain/units/quantity.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { createMessage } from "../discord/stand-in/limits/message.ts";

/** A sentence, or the clock, that a record could not bear; `cause` says how. */
export class Unbearable extends Error {}

/**
 * Says sentences to a bench, 37 s apart, as a keeper would: with the clock between them, and the
 * next daily message planned after each.
 *
 * @returns all that was answered and told
 * @throws Unbearable
 */
export function speakTo(
  record: BenchRecord,
  at: Instant,
  sentences: readonly string[],
  commands: readonly Command[],
): readonly Reply[] {
  const replies: Reply[] = [];
  let current = record;
  let now = at;
  const plan = (): void => {
    const bench = planDaily(planLooks(current.bench, now), now, dailyLooks);
    current = { ...current, bench };
  };
  const tick = (): void => {
    const { bench, happenings, given = [] } = decide(current.bench, now, dailyLooks);
    const told = settleByClock(withBeatsTold(bench, happenings), now);
    replies.push(...announce(told.bench, happenings, now), ...told.replies);
    replies.push(...announceReminders(told.bench, given, now));
    current = { ...current, bench: told.bench };
    nextDue(current.bench);
  };
  const bear = (what: string, deed: () => void): void => {
    try {
      deed();
    } catch (cause) {
      throw new Unbearable(what, { cause });
    }
  };
  for (const text of sentences) {
    bear(text, () => {
      const heard = turn(current, { text, who: "Ines", standing: "owner" }, now, commands);
      current = heard.record;
      replies.push(heard.reply);
    });
    bear("plan", plan);
    now = later(now, 37);
    bear("clock", tick);
  }
  bear("farewell", () => farewell(current.bench, now));
  bear("shown", () => {
    for (const reply of replies) {
      renderText(reply, "bench");
      renderJson(reply, now);
      const { bench } = current;
      for (const message of renderReply(reply, { bench, benchKey: "c1", mode: "bench", now })) {
        const { error } = createMessage.safeParse(message);
        if (error !== undefined) throw error;
      }
    }
  });
  return replies;
}
