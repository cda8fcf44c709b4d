import { createInterface } from "node:readline";
import { createBell } from "../../conversation/bell.ts";
import { systemClock } from "../../platform/clock.ts";
import { refuse } from "../../reply/reply.ts";
import { noticeReply, printer, type ScriptParts } from "./script.ts";

/** Script mode in real time: ends when the input has ended and nothing is running. */
export async function runLive(parts: ScriptParts): Promise<void> {
  const print = printer(parts);
  const bell = createBell({
    keeper: parts.keeper,
    clock: systemClock,
    tell: (replies, at) => {
      for (const reply of replies) print(reply, at);
    },
    onFault: () => print(refuse("fault", FAULT), bell.now()),
  });
  for (const notice of parts.notices) print(noticeReply(notice), bell.now());
  for await (const line of createInterface({
    input: parts.input,
    crlfDelay: Number.POSITIVE_INFINITY,
  })) {
    if (line.startsWith("#")) continue;
    if (line.startsWith("@")) {
      print(refuse("bad-move", "The clock is the real one; @ lines need --simulate."), bell.now());
      continue;
    }
    print(await bell.hear(line.trimEnd(), parts.who), bell.now());
  }
  await bell.quiet();
  bell.stop();
}

export const FAULT =
  "Something went wrong in me, not in what you said. The clock times of the plan still hold; say left.";
