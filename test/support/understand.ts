import type { Command } from "../../src/commands/define-command.ts";
import { type BenchRecord, newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { buildSheet } from "../../src/domain/teaching/build-sheet.ts";
import { millilitres, units } from "../../src/domain/units/quantity.ts";
import { answer, type Reply } from "../../src/reply/reply.ts";
import { gardenAnswers } from "./garden-sheet.ts";
import { evening, runOf, stageOf } from "./runs.ts";

const bottleOf = (id: string, name: string, bath: string) => ({
  id,
  name,
  mark: "square",
  bath,
  volume: millilitres(1000),
  mixedOn: "2026-11-20",
  by: "Ines",
  used: units(2),
});

/** A bench that counts in US ounces: Acorn and Banjo on the shelf, North on the plan, a sheet taught. */
export const busyBench: BenchRecord = (() => {
  const record = newRecord("test", "Europe/Lisbon");
  return {
    ...record,
    bench: {
      ...record.bench,
      nextId: 9,
      country: "us",
      bottles: {
        acorn: bottleOf("acorn", "Acorn", "developer"),
        banjo: bottleOf("banjo", "Banjo", "blix"),
      },
      runs: { "run-1": runOf([stageOf()]) },
      sheets: { garden: buildSheet("garden", gardenAnswers) },
      taught: { garden: gardenAnswers },
    },
  };
})();

export type Understood = {
  /** The command the words went to; undefined when they went to none. */
  readonly command: string | undefined;
  readonly fields: Readonly<Record<string, unknown>>;
  /** The field that has two meanings and is asked about before the command sees anything. */
  readonly asks: string | undefined;
  readonly reply: Reply;
};

/** What a sentence is taken for. The commands themselves do nothing here. */
export function understand(
  said: string,
  commands: readonly Command[],
  record: BenchRecord = busyBench,
): Understood {
  let heard: Pick<Understood, "command" | "fields"> | undefined;
  const idle = commands.map(
    (command): Command => ({
      ...command,
      handle(_, fields) {
        heard ??= { command: command.name, fields };
        return { reply: answer({ title: "Heard.", say: "Heard." }) };
      },
    }),
  );
  const { reply } = turn(record, { text: said, who: "Ines", standing: "owner" }, evening, idle);
  if (heard !== undefined) return { ...heard, asks: undefined, reply };
  const { ask } = reply;
  const known = ask !== undefined && ask.command !== "";
  return {
    command: known ? ask.command : undefined,
    fields: known ? ask.fields : {},
    asks: known ? ask.slot : undefined,
    reply,
  };
}
