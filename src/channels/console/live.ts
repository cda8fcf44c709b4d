import { createInterface } from "node:readline";
import { refuse } from "../../reply/reply.ts";
import { alone, type Join } from "./alone.ts";
import { faultReply } from "./fault.ts";
import { noticeReply, printer, type ScriptParts } from "./script.ts";

/** Script mode in real time: ends when the input has ended and nothing is running. */
export async function runLive(parts: ScriptParts & { readonly join?: Join }): Promise<void> {
  const { keeper, input, who, notices, pictures } = parts;
  const print = printer(parts);
  const join = parts.join ?? alone;
  const bell = join({
    keeper,
    tell: (replies, at) => {
      for (const reply of replies) print(reply, at);
    },
    onFault: (error) => print(faultReply(error), bell.now()),
  });
  for (const notice of notices) print(noticeReply(notice), bell.now());
  for await (const line of createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY })) {
    if (line.startsWith("#")) continue;
    if (line.startsWith("@")) {
      print(refuse("bad-move", "The clock is the real one; @ lines need --simulate."), bell.now());
      continue;
    }
    // Drawn by a thread of its own: a cue that falls due meanwhile is told in time.
    const said = { text: line.trimEnd(), who, standing: "owner" as const };
    const reply = await bell.take(said).catch(faultReply);
    print(await pictures.drawn(reply), bell.now());
  }
  await bell.quiet();
  bell.stop();
}
