import type { Command } from "../../commands/define-command.ts";
import { emergencyIn } from "../../conversation/emergency-in.ts";
import { listeningOf } from "../../conversation/listening.ts";
import type { BenchRecord } from "../../conversation/record.ts";
import { type Choice, understand } from "../../conversation/understand.ts";
import { ownValue } from "../../domain/own-value.ts";
import { type Instant, secondsBetween } from "../../domain/units/quantity.ts";
import { readYes } from "../../language/readers/yes.ts";
import { toWords, type Words } from "../../language/words.ts";
import { oneBreath } from "../../reply/reply.ts";
import { WAKE_WORD } from "../wake-word.ts";
import { alikeNames } from "./alike-names.ts";
import { answers, awaitedCommands } from "./awaited.ts";
import { doubtfulNumbers, holdsNumber, spellOut, unlikelyNumber } from "./numbers.ts";
import { type Thresholds, usualThresholds } from "./thresholds.ts";

/** One utterance as it was heard. */
export type Spoken = {
  readonly text: string;
  readonly score: number;
  /** The key was held while it was said. */
  readonly byKey: boolean;
  /** There was noise beside it: a change has to be surer to be done without a question. */
  readonly noisy?: boolean;
};

/** What voice remembers between two utterances. Plain data. */
export type VoiceThread = {
  /** A sentence that waits for a spoken yes, and what was asked about it. */
  readonly confirming?: { readonly text: string; readonly question: string; readonly at: Instant };
  /** The wake word was said alone: the next words are meant for the bench. */
  readonly calledAt?: Instant;
};

/** Words for the bench, and when they were said, where they were said back first. */
export type Passed = { readonly text: string; readonly saidAt?: Instant | undefined };

export type Judgement =
  /** It was not meant for the bench, or is not sure enough. */
  | { readonly kind: "ignore" }
  /** Give it to the bench, in these words. */
  | ({ readonly kind: "pass" } & Passed)
  /** Say this first; the sentence waits for a yes. */
  | { readonly kind: "ask"; readonly question: string }
  /** Say this; nothing waits. */
  | { readonly kind: "say"; readonly line: string };

export type Situation = {
  readonly record: BenchRecord;
  readonly who: string;
  readonly now: Instant;
  readonly commands: readonly Command[];
  readonly thresholds?: Thresholds;
  /** Our own voice was in the room: only what begins with the wake word was said by a person. */
  readonly echo?: boolean;
};

/** A read-back, the wake word alone, and a question of the bench are open this long, s. */
const PATIENCE = 15;
const QUESTION = 120;
const SAY_AGAIN = "I did not catch that. Say it again.";
/** They work at any time, with no wake word. */
const always: ReadonlySet<string> = new Set(["again", "hold", "trouble", "emergency"]);

/**
 * What to do with words that were heard. What only asks is answered; what changes something needs
 * the wake word, the key, a question it answers, or a spoken yes; numbers are said back when they
 * are doubtful. Pure.
 */
export function judge(
  thread: VoiceThread,
  spoken: Spoken,
  situation: Situation,
): { readonly thread: VoiceThread; readonly judgement: Judgement } {
  const { record, who, now, commands, thresholds = usualThresholds } = situation;
  const called = within(thread.calledAt, now, PATIENCE);
  const waits = within(thread.confirming?.at, now, PATIENCE) ? thread.confirming : undefined;
  const said = withoutWakeWord(spoken.text);
  const addressed = spoken.byKey || (called && situation.echo !== true) || said.woken;
  const sentence = toWords(said.text);
  const result = (judgement: Judgement, next: VoiceThread = {}) => ({ thread: next, judgement });

  if (situation.echo === true && !addressed) return result({ kind: "ignore" }, thread);
  if (sentence.words.length === 0) {
    if (said.woken) return result({ kind: "say", line: "Yes?" }, { calledAt: now });
    if (spoken.byKey) return result({ kind: "say", line: "I did not catch that." }, thread);
    return result({ kind: "ignore" }, thread);
  }
  if (emergencyIn(sentence) !== undefined && (addressed || spoken.score >= thresholds.always)) {
    return result({ kind: "pass", text: said.text });
  }
  // After first aid, which needs nothing of the bench.
  const listening = listeningOf(record.bench, now);
  const choice = understand(sentence, commands, listening);
  const name = choice?.command.name;
  const least = leastScore(sentence, choice, addressed, thresholds);

  if (waits !== undefined) {
    if (name === "again") return result({ kind: "say", line: waits.question }, thread);
    const yes = wholeYes(sentence);
    if (yes === true && spoken.score >= thresholds.yes) {
      return result({ kind: "pass", text: waits.text, saidAt: waits.at });
    }
    if (yes === false) return result({ kind: "say", line: "Left as it was." });
  }
  if (spoken.score < least) {
    if (!addressed) return result({ kind: "ignore" }, thread);
    return result({ kind: "say", line: SAY_AGAIN }, { calledAt: now });
  }
  if (name !== undefined && always.has(name)) return result({ kind: "pass", text: said.text });

  const pending = ownValue(record.threads, who)?.pending;
  const open = pending !== undefined && secondsBetween(pending.at, now) <= QUESTION;
  const answering = open && answers(pending, sentence.words, choice);
  if (choice === undefined && !answering) {
    if (!addressed) return result({ kind: "ignore" }, thread);
    // The bench would guess what was meant; it is to guess from words that were heard well.
    return isHeardWell(spoken, thresholds.change, thresholds)
      ? result({ kind: "pass", text: said.text })
      : result({ kind: "say", line: SAY_AGAIN }, { calledAt: now });
  }
  if (choice?.command.changes === false) return result({ kind: "pass", text: said.text });

  const meant =
    addressed || answering || (name !== undefined && awaitedCommands(record.bench, now).has(name));
  if (!meant && spoken.score < thresholds.unasked) return result({ kind: "ignore" }, thread);
  if (meant && !isDoubtful(sentence, choice, spoken, situation)) {
    return result({ kind: "pass", text: said.text });
  }
  const question = readBack(sentence.words);
  return result({ kind: "ask", question }, { confirming: { text: said.text, question, at: now } });
}

/** "Temperature thirty seven point four, right?" */
const readBack = (words: readonly string[]): string => {
  const text = spellOut(words);
  const whole = `${text.charAt(0).toUpperCase()}${text.slice(1)}, right?`;
  return oneBreath(whole) === whole ? whole : `${oneBreath(text).replace(/[.,]$/, "")}, right?`;
};

function isDoubtful(
  { words }: Words,
  choice: Choice | undefined,
  spoken: Spoken,
  { record, thresholds = usualThresholds }: Situation,
): boolean {
  if (doubtfulNumbers(words).length > 0) return true;
  if (choice !== undefined && unlikelyNumber(choice, record.bench)) return true;
  if (alikeNames(words, record.bench)) return true;
  // "B", "C" and "D" are one vowel: which part went in is never left to the ear alone.
  if (choice?.command.name === "part in" && choice.fields.part !== undefined) return true;
  const least = holdsNumber(words) ? thresholds.number : thresholds.change;
  return !isHeardWell(spoken, least, thresholds);
}

/** Where there is noise a score has to be better. */
const isHeardWell = (
  { score, noisy = false }: Spoken,
  least: number,
  { noise }: Thresholds,
): boolean => score >= least + (noisy ? noise : 0);

/** One or two words are found in any talk; unasked they have to fit well. */
function leastScore(
  { words }: Words,
  choice: Choice | undefined,
  addressed: boolean,
  thresholds: Thresholds,
): number {
  if (addressed) return thresholds.addressed;
  if (choice !== undefined && always.has(choice.command.name)) return thresholds.always;
  return words.length <= 2 ? thresholds.short : thresholds.long;
}

function withoutWakeWord(text: string): { readonly text: string; readonly woken: boolean } {
  const words = text.split(" ");
  return words[0] === WAKE_WORD
    ? { text: words.slice(1).join(" "), woken: true }
    : { text, woken: false };
}

const wholeYes = ({ words }: Words): boolean | undefined =>
  readYes(words, 0).find(({ next }) => next === words.length)?.value;

const within = (at: Instant | undefined, now: Instant, patience: number): boolean =>
  at !== undefined && secondsBetween(at, now) <= patience;
