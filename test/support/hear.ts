import type { Command } from "../../src/commands/define-command.ts";
import type { BenchRecord } from "../../src/conversation/record.ts";
import { newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { instant } from "../../src/domain/units/quantity.ts";
import { type Json, type Reply, valuesOf } from "../../src/reply/reply.ts";

/** Saturday morning in Lisbon. */
const morning = instant(Date.parse("2026-11-28T09:00:00Z"));

export type Heard = {
  readonly reply: Reply;
  readonly values: Record<string, Json>;
  readonly record: BenchRecord;
  /** The command that answered last; nothing when the conversation itself did. */
  readonly by: string | undefined;
};

/** Says sentences one after the other to a bench and gives the last answer. */
export function hear(
  commands: readonly Command[],
  sentences: string | readonly string[],
  habits: Partial<BenchRecord["bench"]> = {},
): Heard {
  let by: string | undefined;
  const watched = commands.map((command) => ({
    ...command,
    handle: (...given: Parameters<Command["handle"]>) => {
      by = command.name;
      return command.handle(...given);
    },
  }));
  const fresh = newRecord("t", "Europe/Lisbon");
  let record: BenchRecord = { ...fresh, bench: { ...fresh.bench, ...habits } };
  let reply: Reply | undefined;
  for (const text of typeof sentences === "string" ? [sentences] : sentences) {
    by = undefined;
    const after = turn(record, { text, who: "me", standing: "owner" }, morning, watched);
    record = after.record;
    reply = after.reply;
  }
  if (reply === undefined) throw new Error("nothing was said");
  return { reply, values: valuesOf(reply), record, by };
}
