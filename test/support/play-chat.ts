import { readInstant } from "../../src/channels/console/read-instant.ts";
import { renderText } from "../../src/channels/console/render.ts";
import { readMove } from "../../src/channels/console/time-travel.ts";
import type { Command } from "../../src/commands/define-command.ts";
import { BenchKeeper } from "../../src/conversation/bench-keeper.ts";
import type { BenchRecord } from "../../src/conversation/record.ts";
import { clockTime } from "../../src/domain/timing/clock-text.ts";
import type { Instant } from "../../src/domain/units/quantity.ts";
import { filesIn } from "../../src/export/files.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { createMemoryStore, emptyMemory } from "../../src/store/memory-store.ts";
import { withFolder } from "./child.ts";

const BENCH = "golden";

/**
 * Plays a whole chat: `> ` is a message of Ines, `Dora> ` one of Dora, `@` moves the clock, `~ restart` opens the bench anew from
 * its store after the clock has been moved on with the program down. `# at` and `# zone` at the
 * top set the scene. Everything else in the file is what was answered, and is written again.
 */
export const playChat = (text: string, commands: readonly Command[]): Promise<string> =>
  withFolder((folder) => playIn(folder, text, commands));

/** @param folder  where archives are put */
async function playIn(folder: string, text: string, commands: readonly Command[]): Promise<string> {
  const lines = text.split("\n");
  const header = lines.filter((line) => line.startsWith("# "));
  const value = (key: string): string | undefined =>
    header.find((line) => line.startsWith(`# ${key} `))?.slice(key.length + 3);
  const zone = value("zone") ?? "Europe/Lisbon";
  const start = readInstant(value("at") ?? "2026-11-28T19:30:00", zone);
  if (start === undefined) throw new Error("the chat has no start");
  const memory = emptyMemory<BenchRecord>();
  const open = async (): Promise<BenchKeeper> =>
    (await BenchKeeper.open(BENCH, { zone }, createMemoryStore(memory), commands, filesIn(folder)))
      .keeper;

  let keeper = await open();
  let now: Instant = start;
  let down = false;
  const out: string[] = [...header, ""];
  const say = (reply: Reply): void => {
    const stamp =
      reply.kind === "cue" || reply.kind === "reminder" ? `${clockTime(now, zone)} ` : "";
    out.push(`${stamp}${renderText(reply, keeper.record.bench.mode)}`, "");
  };
  const catchUp = async (to: Instant): Promise<void> => {
    while (!down) {
      const due = keeper.nextDue();
      if (due === undefined || due > to) break;
      if (due > now) now = due;
      await keeper.tick(now, (replies) => {
        for (const reply of replies) say(reply);
      });
    }
    now = to;
  };
  for (const line of lines) {
    const spoken = /^(\p{Lu}\p{L}*)?> (.*)$/u.exec(line);
    if (spoken !== null) {
      out.push(line);
      const [, who = "Ines", said = ""] = spoken;
      say(await keeper.hear({ text: said, who, standing: "owner" }, now));
      await catchUp(now);
    } else if (line.startsWith("@")) {
      out.push(line, "");
      const move = readMove(line, now, zone);
      if ("wrong" in move) throw new Error(move.wrong);
      await catchUp(move.to);
    } else if (line === "~ stop") {
      out.push(line, "");
      down = true;
    } else if (line === "~ start") {
      out.push(line, "");
      down = false;
      // What a disk would give back: the same record, as plain JSON.
      for (const [id, record] of memory.benches) memory.benches.set(id, structuredClone(record));
      keeper = await open();
      await catchUp(now);
    }
  }
  return `${out.join("\n").trimEnd()}\n`;
}
