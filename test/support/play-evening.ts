import type { Command } from "../../src/commands/define-command.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import type { BenchRecord } from "../../src/conversation/record.ts";
import { later } from "../../src/domain/units/quantity.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { createMemoryStore, emptyMemory } from "../../src/store/memory-store.ts";
import { evening } from "./runs.ts";

export type Heard = {
  /** What was said; undefined when the clock spoke. */
  readonly said: string | undefined;
  /** The command that gave the reply; undefined when the talk itself or the clock did. */
  readonly command: string | undefined;
  readonly reply: Reply;
};

function frozen<T>(value: T): T {
  if (typeof value === "object" && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const inner of Object.values(value)) frozen(inner);
  }
  return value;
}

/** Plays a script from half past seven on and gives every reply in order. */
export async function playEvening(
  script: readonly string[],
  commands: readonly Command[],
): Promise<readonly Heard[]> {
  let ran: string | undefined;
  const marked = commands.map(
    (command): Command => ({
      ...command,
      handle(at, fields) {
        ran = command.name;
        return command.handle(at, fields);
      },
    }),
  );
  const memory = createMemoryStore(emptyMemory<BenchRecord>());
  const store: typeof memory = {
    ...memory,
    // Whoever alters a stored bench in place, instead of making a new one, throws here.
    commit: (id, previous, next, options) => memory.commit(id, previous, frozen(next), options),
  };
  const { keeper } = await BenchKeeper.open("evening", { zone: "Europe/Lisbon" }, store, marked);
  const heard: Heard[] = [];
  let now = evening;
  for (const line of script) {
    if (!line.startsWith("@")) {
      ran = undefined;
      const reply = await keeper.hear({ text: line, who: "Ines", standing: "owner" }, now);
      heard.push({ said: line, command: ran, reply });
      continue;
    }
    now = later(now, Number(line.slice(1)));
    for (let due = keeper.nextDue(); due !== undefined && due <= now; due = keeper.nextDue()) {
      await keeper.tick(due, (replies) => {
        for (const reply of replies) heard.push({ said: undefined, command: undefined, reply });
      });
    }
  }
  return heard;
}
