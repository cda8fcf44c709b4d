import { createInterface } from "node:readline";
import { createBell } from "../../conversation/bell.ts";
import type { BenchKeeper } from "../../conversation/bench-keeper.ts";
import { momentOf } from "../../conversation/moment.ts";
import { clockTime } from "../../domain/timing/clock-text.ts";
import { systemClock } from "../../platform/clock.ts";
import { type Reply, refuse } from "../../reply/reply.ts";
import { FAULT } from "./live.ts";
import { renderMoment, renderText } from "./render.ts";
import { noticeReply } from "./script.ts";

export type TerminalParts = {
  readonly keeper: BenchKeeper;
  readonly who: string;
  readonly notices: readonly string[];
  readonly input: NodeJS.ReadableStream;
  readonly output: NodeJS.WriteStream;
};

const WELCOME =
  "Wetside. Type what you need, or help. Ctrl-C leaves; a run goes on when you come back.";

/**
 * A bench a person types at. The prompt is the clock line: it is drawn anew every second without
 * touching what is being typed, and cues are printed above it as they come.
 */
export async function runTerminal(parts: TerminalParts): Promise<void> {
  const { keeper, who, output } = parts;
  const lines = createInterface({ input: parts.input, output, terminal: true });

  const prompt = (): string => {
    const { bench } = keeper.record;
    const now = bell.now();
    return `[${clockTime(now, bench.zone)} ${renderMoment(momentOf(bench, now))}] > `;
  };
  const redraw = (): void => {
    lines.setPrompt(prompt());
    lines.prompt(true);
  };
  const print = (text: string): void => {
    // Over the line being typed, which the prompt then draws again below.
    output.write(`\r\x1b[J${text}\n\n`);
    redraw();
  };
  const show = (reply: Reply): void => print(renderText(reply, keeper.record.bench.mode));
  const ring = (replies: readonly Reply[]): void => {
    for (const reply of replies) show(reply);
    if (replies.length > 0) output.write("\x07");
  };

  const bell = createBell({
    keeper,
    clock: systemClock,
    tell: ring,
    onFault: () => show(refuse("fault", FAULT)),
  });
  print(
    [WELCOME, ...parts.notices.map((notice) => renderText(noticeReply(notice), "bench"))].join(
      "\n",
    ),
  );
  const ticking = setInterval(redraw, 1000);

  await new Promise<void>((done) => {
    lines.on("line", (line) => {
      if (/^(quit|exit|bye)$/i.test(line.trim())) {
        lines.close();
        return;
      }
      bell.hear(line, who).then(show, () => show(refuse("fault", FAULT)));
    });
    lines.on("SIGINT", () => lines.close());
    lines.on("close", done);
  });
  clearInterval(ticking);
  bell.stop();
  const running = Object.values(keeper.record.bench.runs).some((run) => run.endedAt === undefined);
  output.write(
    running ? "\nA run is open. Its clock goes on; start me again for the cues.\n" : "\nGoodbye.\n",
  );
}
