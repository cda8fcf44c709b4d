import type { Pending } from "../../../conversation/record.ts";
import type { Bench } from "../../../domain/session/bench.ts";
import { type Instant, later, seconds } from "../../../domain/units/quantity.ts";
import type { Moment, Reply } from "../../../reply/reply.ts";
import { renderMoment } from "../../console/render.ts";
import { fitsButtons, optionButtons, type Rows, runButtons } from "./buttons.ts";
import { type MessagePayload, payload } from "./message-payload.ts";
import { reminderButtons } from "./reminder-buttons.ts";
import { cleanPieces, packLines } from "./split-text.ts";
import { formButton } from "./teach-form.ts";
import { clockMark } from "./time-marks.ts";

export type RenderContext = {
  readonly bench: Bench;
  /** What tells this bench's buttons from those of others; letters, digits, "-" and "_". */
  readonly benchKey: string;
  readonly mode: Bench["mode"];
  readonly now: Instant;
  /** The question this reply asks, as `openQuestion` gives it after the turn: its buttons. */
  readonly question?: Pending | undefined;
  readonly ephemeral?: boolean | undefined;
  /** The run's owner, by Discord id, where the message is to call them. */
  readonly mention?: string | undefined;
};

/** Nobody asked for it: the clock said it. In the dark it is not told. */
const isUnasked = ({ kind, facts }: Reply): boolean =>
  kind === "cue" || kind === "reminder" || facts.cue !== undefined;

/**
 * A reply as messages, each of 2,000 characters or less, in order. All of it at the bench, one line
 * with wet hands; nothing in the dark but what answers a person. Buttons stand under the last.
 */
export function renderReply(reply: Reply, context: RenderContext): readonly MessagePayload[] {
  const { mode } = context;
  const unasked = isUnasked(reply);
  if (mode === "dark" && unasked) return [];
  const short = mode === "dark" || (mode === "wet" && reply.kind !== "cue");
  const lines = short ? cleanPieces(reply.say) : allLines(reply, context);
  const texts = packLines(called(lines, context.mention));
  const buttons = buttonsOf(reply, context);
  return texts.map((text, index) =>
    payload(text, {
      ephemeral: context.ephemeral,
      mention: context.mention,
      ...(index === texts.length - 1 ? { buttons } : {}),
    }),
  );
}

/** Said already: the small print would only say it again. */
const NO_CLOCK = /no clock (is )?running/i;

/** A cue is plain, so that a banner shows its words and nothing else. */
function allLines(reply: Reply, { question, now }: RenderContext): readonly string[] {
  const [title = "", ...more] = cleanPieces(reply.title);
  const offered = reply.ask?.options ?? [];
  const asButtons = question !== undefined && fitsButtons(question);
  const isTold = [reply.title, ...reply.lines].some((line) => NO_CLOCK.test(line));
  const isWithout = isUnasked(reply) || (isTold && reply.clock?.kind === "no-clock");
  return [
    reply.kind === "cue" || reply.facts.cue !== undefined ? title : `**${title}**`,
    ...more,
    ...reply.lines.flatMap(cleanPieces),
    ...reply.cautions.flatMap(cleanPieces).map((line) => `⚠️ ${line}`),
    ...(offered.length === 0 || asButtons
      ? []
      : cleanPieces(`(${offered.map(({ word }) => word).join(" / ")})`)),
    ...(reply.clock === undefined || isWithout ? [] : [clockLine(reply.clock, now)]),
  ];
}

/** What the clock is doing, in small print, with the time at which the bath is over. */
function clockLine(moment: Moment, now: Instant): string {
  // Of a tank's name without end the beginning does.
  const [words = ""] = cleanPieces(renderMoment(moment));
  if (moment.kind === "no-clock") return `-# ${words}`;
  return `-# ${words}, ${clockMark(later(now, seconds(moment.left_s)))}`;
}

/** Whoever is called is called behind the first line: a banner begins with the tank and the verb. */
function called(lines: readonly string[], mention: string | undefined): readonly string[] {
  if (mention === undefined || !/^\d{1,20}$/.test(mention)) return lines;
  const [first = "", ...rest] = lines;
  return [`${first} <@${mention}>`, ...rest];
}

/** Cues that want a word back; a beat wants none. */
const WANTS_A_WORD: ReadonlySet<unknown> = new Set(["pour", "pour-out", "ask-in", "assumed-in"]);

function buttonsOf(reply: Reply, context: RenderContext): Rows {
  const { bench, benchKey, question, now } = context;
  if (reply.ask !== undefined) {
    const offered = question === undefined ? [] : optionButtons(benchKey, question);
    const form = reply.ask.command === "learn" ? formButton(bench, benchKey) : [];
    return [...offered, ...form].slice(0, 2);
  }
  if (reply.kind === "reminder") return reminderButtons(bench, benchKey, reply);
  if (reply.facts.cue !== undefined) {
    return WANTS_A_WORD.has(reply.facts.cue) ? runButtons(bench, benchKey, now) : [];
  }
  return runButtons(bench, benchKey, now);
}
