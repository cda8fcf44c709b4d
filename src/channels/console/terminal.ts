import { createInterface } from "node:readline";
import type { BenchKeeper } from "../../conversation/bench-keeper.ts";
import { farewell } from "../../conversation/farewell.ts";
import { momentOf } from "../../conversation/moment.ts";
import { clockTime } from "../../domain/timing/clock-text.ts";
import type { Reply } from "../../reply/reply.ts";
import { alone, type Join } from "./alone.ts";
import { clockLine } from "./clock-line.ts";
import { faultReply } from "./fault.ts";
import type { Pictures } from "./pictures.ts";
import { renderText } from "./render.ts";
import { noticeReply } from "./script.ts";
import { wrap } from "./wrap.ts";

export type TerminalParts = {
  readonly keeper: BenchKeeper;
  readonly who: string;
  readonly notices: readonly string[];
  readonly pictures: Pictures;
  readonly input: NodeJS.ReadableStream;
  readonly output: NodeJS.WriteStream;
  readonly join?: Join;
  /** Aborted when the program is asked to leave. */
  readonly stop?: AbortSignal;
};

const WELCOME = `Wetside. Type what you need, for example:
  how much water for a quart of developer
  start developer
  help
Ctrl-C leaves; a run goes on, and you get its cues when you come back.`;

/** Width of a terminal that does not say. */
const USUAL = 80;

/**
 * A bench a person types at. The prompt is the clock line: it is drawn anew every second without
 * touching what is being typed, and cues are printed above it as they come.
 */
export async function runTerminal(parts: TerminalParts): Promise<void> {
  const { keeper, who, output, pictures } = parts;
  const lines = createInterface({ input: parts.input, output, terminal: true });
  const columns = (): number => output.columns || USUAL;
  let open = true;

  /**
   * To the first row of the line being typed. Pasted text moves the cursor without the line reader
   * taking note, so the rows are counted here and its own count is put back to none.
   */
  const home = (): void => {
    if (!open) return;
    const { rows } = lines.getCursorPos();
    output.write(rows > 0 ? `\x1b[${rows}A\r` : "\r");
    Reflect.set(lines, "prevRows", 0);
  };
  const draw = (): void => {
    if (!open) return;
    const { bench } = keeper.record;
    const now = bell.now();
    lines.setPrompt(clockLine(clockTime(now, bench.zone), momentOf(bench, now), columns()));
    lines.prompt(true);
  };
  const redrawAtEdge = (): void => {
    if (lines.cursor === lines.line.length) output.write(" \r");
  };
  const redraw = (): void => {
    output.cork();
    home();
    draw();
    output.uncork();
  };
  /** Prints above the line being typed. */
  const print = (text: string): void => {
    output.cork();
    home();
    output.write(`\x1b[J${wrap(text, columns())}\n\n`);
    draw();
    output.uncork();
  };
  const show = (reply: Reply): void => print(renderText(reply, keeper.record.bench.mode));

  const join = parts.join ?? alone;
  const bell = join({
    keeper,
    tell: (replies) => {
      for (const reply of replies) show(reply);
      if (replies.length > 0) output.write("\x07");
    },
    onFault: (error) => show(faultReply(error)),
  });
  print(WELCOME);
  for (const notice of parts.notices) print(renderText(noticeReply(notice), "bench"));
  // Pasted text that just fills a row leaves the cursor on that row until something follows.
  parts.input.on("data", () => {
    if (open && lines.line !== "" && lines.getCursorPos().cols === 0) redrawAtEdge();
  });
  const ticking = setInterval(redraw, 1000);

  await new Promise<void>((done) => {
    lines.on("line", (line) => {
      if (/^(quit|exit|bye)$/i.test(line.trim())) {
        lines.close();
      } else if (line.trim() === "") {
        redraw();
      } else {
        const said = { text: line, who, standing: "owner" as const };
        bell.take(said, show).catch(faultReply).then(pictures.drawn).then(show, done);
      }
    });
    lines.on("SIGINT", () => lines.close());
    parts.stop?.addEventListener("abort", () => lines.close(), { once: true });
    lines.on("close", () => {
      open = false;
      done();
    });
  });
  clearInterval(ticking);
  bell.stop();
  const leaving = farewell(keeper.record.bench, bell.now());
  const goodbye = leaving === undefined ? "Goodbye." : renderText(leaving, "bench");
  output.write(`\n${wrap(goodbye, columns())}\n`);
}
