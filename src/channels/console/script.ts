import type { BenchKeeper } from "../../conversation/bench-keeper.ts";
import type { Instant } from "../../domain/units/quantity.ts";
import { type Reply, refuse } from "../../reply/reply.ts";
import { faultReply } from "./fault.ts";
import { linesOf } from "./lines-of.ts";
import type { Pictures } from "./pictures.ts";
import { renderJson, renderText } from "./render.ts";
import { readMove } from "./time-travel.ts";

export type ScriptParts = {
  readonly keeper: BenchKeeper;
  readonly input: NodeJS.ReadableStream;
  readonly write: (text: string) => void;
  readonly json: boolean;
  readonly who: string;
  readonly notices: readonly string[];
  readonly pictures: Pictures;
};

/** Prints replies one after the other, as text or as JSON lines. */
export function printer({ keeper, write, json }: ScriptParts): (reply: Reply, at: Instant) => void {
  return (reply, at) => {
    write(
      json ? `${renderJson(reply, at)}\n` : `${renderText(reply, keeper.record.bench.mode)}\n\n`,
    );
  };
}

/** "=Dora": from here on Dora speaks. Undefined for any other line. */
export const speakerIn = (line: string): string | undefined =>
  /^=\s*(\S.{0,59})$/.exec(line.trimEnd())?.[1];

export const noticeReply = (notice: string): Reply => refuse("data-folder", notice);

/**
 * Script mode under a clock that stands still and moves only by `@` lines. What falls due on the
 * way is printed at its own instant.
 */
export async function runSimulated(parts: ScriptParts, start: Instant): Promise<void> {
  const { keeper, input } = parts;
  const print = printer(parts);
  let now = start;
  let { who } = parts;
  const catchUp = async (to: Instant): Promise<void> => {
    for (;;) {
      const due = keeper.nextDue();
      if (due === undefined || due > to) break;
      if (due > now) now = due;
      try {
        await keeper.tick(now, (replies) => {
          for (const reply of replies) print(reply, now);
        });
      } catch (error) {
        print(faultReply(error), now);
        // What was told and could not be kept is behind it; what was not told would fail again.
        const next = keeper.nextDue();
        if (next !== undefined && next <= now) break;
      }
    }
    now = to;
  };
  for (const notice of parts.notices) print(noticeReply(notice), now);
  await catchUp(now);
  for await (const line of linesOf(input)) {
    const text = line.trimEnd();
    if (text.startsWith("#")) continue;
    const speaker = speakerIn(text);
    if (speaker !== undefined) {
      who = speaker;
      continue;
    }
    if (text.startsWith("@")) {
      const move = readMove(text, now, keeper.record.bench.zone);
      if ("wrong" in move) print(refuse("bad-move", move.wrong), now);
      else await catchUp(move.to);
      continue;
    }
    const progress = (reply: Reply): void => print(reply, now);
    const reply = await keeper
      .hear({ text, who, standing: "owner" }, now, progress)
      .catch(faultReply);
    print(await parts.pictures.drawn(reply), now);
    await catchUp(now);
  }
}
