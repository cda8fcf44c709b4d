import { farewell } from "../../conversation/farewell.ts";
import { aborted } from "../../platform/stop-signals.ts";
import { type Reply, refuse } from "../../reply/reply.ts";
import { alone, type Join } from "./alone.ts";
import { faultReply } from "./fault.ts";
import { linesOf } from "./lines-of.ts";
import { noticeReply, printer, type ScriptParts, speakerIn } from "./script.ts";

export type LiveParts = ScriptParts & {
  readonly join?: Join;
  /** Aborted when the program is asked to leave. */
  readonly stop?: AbortSignal;
};

/** Script mode in real time: ends when the input has ended and nothing is running. */
export async function runLive(parts: LiveParts): Promise<void> {
  const { keeper, input, notices, pictures, stop } = parts;
  let { who } = parts;
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
  for await (const line of linesOf(input, stop)) {
    if (line.startsWith("#")) continue;
    const speaker = speakerIn(line);
    if (speaker !== undefined) {
      who = speaker;
      continue;
    }
    if (line.startsWith("@")) {
      print(refuse("bad-move", "The clock is the real one; @ lines need --simulate."), bell.now());
      continue;
    }
    // Drawn by a thread of its own: a cue that falls due meanwhile is told in time.
    const progress = (reply: Reply): void => print(reply, bell.now());
    const said = { text: line.trimEnd(), who, standing: "owner" as const };
    const reply = await bell.take(said, progress).catch(faultReply);
    print(await pictures.drawn(reply), bell.now());
  }
  const left = stop === undefined ? [] : [aborted(stop)];
  await Promise.race([bell.quiet(), ...left]);
  if (stop?.aborted === true) {
    const leaving = farewell(keeper.record.bench, bell.now());
    if (leaving !== undefined) print(leaving, bell.now());
  }
  bell.stop();
}
