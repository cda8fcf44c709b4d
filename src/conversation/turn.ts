import { retiredNamed, retiredReply } from "../commands/bottle-meant.ts";
import type { Command, Handling, Outcome } from "../commands/define-command.ts";
import { toJson } from "../commands/define-command.ts";
import { markRehearsal } from "../commands/mark-rehearsal.ts";
import { notYours } from "../commands/not-yours.ts";
import { mayUse, type Right, rightNeeded, type Standing } from "../commands/permissions.ts";
import type { ExportFile, Reads, Work } from "../commands/work.ts";
import { diff } from "../domain/changes.ts";
import { ownValue } from "../domain/own-value.ts";
import { LONGEST_BLOCK } from "../domain/record/read-repeatable.ts";
import type { Bench } from "../domain/session/bench.ts";
import { liveRuns, runOfTank } from "../domain/session/find-run.ts";
import { type Retimed, retimedWords } from "../domain/session/follow-bottles.ts";
import { awaitsIn, standing } from "../domain/session/hear.ts";
import { noPast, type Past } from "../domain/session/past.ts";
import { signWork } from "../domain/session/sign-work.ts";
import { type Instant, secondsBetween } from "../domain/units/quantity.ts";
import type { Listening } from "../language/reader.ts";
import { isUnsettled, type Unsettled } from "../language/reader.ts";
import { readers } from "../language/readers/all.ts";
import { isUnreadable } from "../language/readers/unreadable.ts";
import { toWords, type Words } from "../language/words.ts";
import {
  answer,
  type Option,
  oneBreath,
  question,
  type Reply,
  refuse,
  withoutPicture,
} from "../reply/reply.ts";
import { sayRetimed } from "./announce.ts";
import { listWords, pick, whichOne } from "./choices.ts";
import { emergencyIn } from "./emergency-in.ts";
import { listeningOf } from "./listening.ts";
import { momentOf } from "./moment.ts";
import { type BenchRecord, type Pending, type Said, type Thread, withThread } from "./record.ts";
import { settleRuns } from "./settle-runs.ts";
import { nearest, tellsOfHarm } from "./suggest.ts";
import { type Choice, understand } from "./understand.ts";

/**
 * What somebody said, or a command a channel has already made out, with its raw fields. A channel
 * that does not say how they stand to the bench speaks for a member.
 */
export type Message = {
  readonly who: string;
  readonly standing?: Standing | undefined;
  /** When it was said, where a channel said it back first; missing: just now. */
  readonly saidAt?: Instant | undefined;
} & (
  | { readonly text: string }
  | { readonly command: string; readonly fields: Readonly<Record<string, unknown>> }
);

export type Turn = {
  readonly record: BenchRecord;
  readonly reply: Reply;
  /** The command looks at something that is still in files: nothing is done before it is read. */
  readonly lacks?: Reads | undefined;
  /** What is to be done with files once this is kept; its answer takes the place of the reply. */
  readonly work?: Work | undefined;
};

/** Past runs, or that nobody has read them yet. */
export type PastKnown = Past | "unread";
/** Archives in the folder exports, or that nobody has looked. */
export type ExportsKnown = readonly ExportFile[] | "unread";

/** A question is put aside after this long, s. */
const PATIENCE = 120;
const LONGEST = 1000;
/** A channel may hold no more of what is too long, and cut it off. */
const COUNTED = 60_000;
const UNDO_STEPS = 20;

/**
 * One message and its answer. Pure: the same record, past, words and moment give the same turn.
 * Where the past is needed and unread the record is as it was, and the turn says what it lacks.
 */
export function turn(
  record: BenchRecord,
  message: Message,
  now: Instant,
  commands: readonly Command[],
  past: PastKnown = noPast,
  exports: ExportsKnown = [],
): Turn {
  const listening = listeningOf(record.bench, now);
  const { who, standing = "member", saidAt = now } = message;
  const talk = new Talk(record, { who, standing, saidAt }, now, commands, listening, {
    past,
    exports,
  });
  const { reply, after, lacks, work } =
    "text" in message ? talk.hear(message.text) : talk.call(message.command, message.fields);
  if (lacks !== undefined) return { record, reply, lacks };
  return { work, record: after, reply: { ...reply, clock: momentOf(after.bench, now) } };
}

/** The question somebody has been asked and has not let lie too long. */
export function openQuestion(
  { threads }: BenchRecord,
  who: string,
  now: Instant,
): Pending | undefined {
  const pending = ownValue(threads, who)?.pending;
  if (pending === undefined || secondsBetween(pending.at, now) > PATIENCE) return undefined;
  return pending;
}

type Speaker = { readonly who: string; readonly standing: Standing; readonly saidAt: Instant };

type Known = { readonly past: PastKnown; readonly exports: ExportsKnown };

type Heard = Pick<Turn, "reply" | "lacks" | "work"> & { readonly after: BenchRecord };

class Talk {
  readonly #record: BenchRecord;
  readonly #who: string;
  readonly #standing: Standing;
  readonly #saidAt: Instant;
  readonly #now: Instant;
  readonly #commands: readonly Command[];
  readonly #listening: Listening;
  readonly #known: Known;

  constructor(
    record: BenchRecord,
    { who, standing, saidAt }: Speaker,
    now: Instant,
    commands: readonly Command[],
    listening: Listening,
    known: Known,
  ) {
    this.#known = known;
    this.#record = record;
    this.#who = who;
    this.#standing = standing;
    this.#saidAt = saidAt;
    this.#now = now;
    this.#commands = commands;
    this.#listening = listening;
  }

  get #thread(): Thread {
    return ownValue(this.#record.threads, this.#who) ?? {};
  }

  get #pending(): Pending | undefined {
    return openQuestion(this.#record, this.#who, this.#now);
  }

  /** A command by name goes the way of a sentence that was understood; first aid goes before it. */
  call(name: string, fields: Readonly<Record<string, unknown>>): Heard {
    const typed = Object.values(fields)
      .filter((value) => typeof value === "string")
      .join(" ");
    if (typed.length > LONGEST) return this.#tooLong(typed);
    const emergency = this.#emergency(toWords(typed));
    if (emergency !== undefined) return this.#run(emergency);
    const command = this.#commandNamed(name);
    return command === undefined
      ? this.#unknown(toWords(`${name} ${typed}`))
      : this.#run({ command, fields });
  }

  #tooLong(text: string): Heard {
    return this.#plain(
      refuse(
        "too-long",
        `That was ${text.length < COUNTED ? text.length : `${COUNTED} or more`} characters. Say it in one sentence, ${LONGEST} at most.`,
      ),
    );
  }

  hear(text: string): Heard {
    const block = this.#block(text);
    if (block !== undefined) return this.#run(block);
    if (text.length > LONGEST) return this.#tooLong(text);
    const sentence = toWords(text);
    if (sentence.words.length === 0) {
      // "Hm" to a question of a sheet: it is asked again.
      const asked = sentence.typed === "" ? undefined : this.#pending;
      if (asked?.ask.eager === true) return this.#eagerly(asked, sentence, undefined);
      return this.#plain(refuse("empty", "I heard no words. Say what you need, or say help."));
    }
    const emergency = this.#emergency(sentence);
    if (emergency !== undefined) return this.#run(emergency);
    if (this.#standing === "guest") {
      // Nothing of the bench is told to them, not even what was not understood.
      const meant = this.#match(sentence);
      return meant === undefined ? this.#plain(notYours) : this.#run(meant);
    }
    const pending = this.#pending;
    if (pending !== undefined) {
      const answered = this.#answer(pending, sentence);
      if (answered !== undefined) return answered;
    }
    const heard = this.#match(sentence);
    const best = pending !== undefined && this.#answersWhy(heard, pending) ? undefined : heard;
    // "No" to a sheet's question is an answer: the paper does not say.
    const no = pending?.ask.command === "learn" && /^no(pe)?$/.test(sentence.words.join(" "));
    if (pending?.ask.eager === true && (no || !(best !== undefined && outranksAnswer(best)))) {
      return this.#eagerly(pending, sentence, best);
    }
    if (pending !== undefined && best !== undefined && this.#isBareAnswer(best, pending)) {
      return this.#unclear(sentence, pending);
    }
    if (pending !== undefined && pending.ask.optional !== true && best?.command.name === "cancel") {
      return this.#leftAsItWas();
    }
    if (best !== undefined) return this.#run(best);
    if (pending === undefined && this.#record.bench.draft !== undefined) {
      return this.#eagerly(teaching, sentence, undefined);
    }
    const reading = this.#bareReading(pending, sentence);
    if (reading !== undefined) return this.#run(reading);
    if (pending !== undefined) {
      const again = this.#commandNamed(pending.ask.command);
      if (pending.ask.optional === true) {
        const slip = this.#didYouMean(sentence);
        if (slip !== undefined) return slip;
      }
      if (again !== undefined && isFreeText(again, pending)) {
        return this.#answered(pending, {
          command: again,
          fields: { ...pending.ask.fields, [pending.ask.slot]: sentence.typed },
        });
      }
      return this.#unclear(sentence, pending);
    }
    const others = this.#endAskedOfOthers();
    const answered = others === undefined ? undefined : this.#answer(others, sentence);
    return answered ?? this.#unknown(sentence);
  }

  /** How a run ended is everybody's to say: who was not asked may answer what nothing else reads. */
  #endAskedOfOthers(): Pending | undefined {
    return Object.keys(this.#record.threads)
      .flatMap((who) => openQuestion(this.#record, who, this.#now) ?? [])
      .filter(({ ask }) => ask.command === "wrap up")
      .toSorted((one, other) => other.at - one.at)[0];
  }

  /** A run pasted from another bench is longer than any sentence, and none of its words are said. */
  #block(text: string): Choice | undefined {
    const command = this.#commandNamed("repeat block");
    const pasted = /\{\s*"schema"\s*:\s*"wetside-repeatable"/.exec(text.slice(0, LONGEST));
    if (command === undefined || pasted === null) return undefined;
    return {
      command,
      fields: { block: text.slice(pasted.index, pasted.index + LONGEST_BLOCK + 1) },
    };
  }

  #emergency(sentence: Words): Choice | undefined {
    const command = this.#commandNamed("emergency");
    const emergency = emergencyIn(sentence);
    if (command === undefined || emergency === undefined) return undefined;
    return { command, fields: { kind: emergency.id } };
  }

  /** Yes to a question of which or of how long: it is told how to answer, unless a pour waits for it. */
  #isBareAnswer({ command }: Choice, pending: Pending): boolean {
    const { options, optional } = pending.ask;
    if (optional === true || options?.some(({ word }) => word === "yes") === true) return false;
    if (command.name === "cancel") return pending.settles !== undefined;
    return command.name === "yes" && !pourIsOpen(this.#record.bench, this.#now);
  }

  /** "The lid leaked" answers why it was stopped: a mishap is trouble only where nobody asked for words. */
  #answersWhy(heard: Choice | undefined, pending: Pending): boolean {
    const asking = this.#commandNamed(pending.ask.command);
    if (heard?.command.name !== "trouble" || heard.fields.mishap === undefined) return false;
    return asking !== undefined && asking !== heard.command && isFreeText(asking, pending);
  }

  #commandNamed(name: string): Command | undefined {
    return this.#commands.find((command) => command.name === name);
  }

  #match(sentence: Words): Choice | undefined {
    return understand(sentence, this.#commands, this.#listening);
  }

  /** The open question answered, or undefined when these words are no answer to it. */
  #answer(pending: Pending, sentence: Words): Heard | undefined {
    const said = sentence.words.join(" ");
    if (/^(cancel|never mind|forget it|leave it)$/.test(said)) return this.#leftAsItWas();
    if (pending.sentence !== undefined) {
      const yes = wholly(readers.yes, sentence, this.#listening);
      if (yes === true) return this.#forgetQuestion().hear(pending.sentence);
      if (yes === false) {
        return this.#plain(
          answer({ title: "Then say it another way.", say: "Then say it another way." }),
          {
            keepQuestion: false,
          },
        );
      }
      return undefined;
    }
    const command = this.#commandNamed(pending.ask.command);
    if (command === undefined) return undefined;
    const { options } = pending.ask;
    if (this.#isIn(pending, sentence)) return undefined;
    const picked = options === undefined ? undefined : pick(options, said);
    if (picked !== undefined && pending.ask.eager !== true) {
      const talk =
        pending.settles === undefined ? this : this.#learnHabit(pending.settles, picked.word);
      const heard = talk.#answered(pending, {
        command,
        fields: { ...pending.ask.fields, [pending.ask.slot]: picked.value },
      });
      return talk === this ? heard : saidHabit(heard, picked.word);
    }
    if (pending.settles !== undefined) return undefined;
    if (isFreeText(command, pending)) return undefined;
    const slot = ownValue(command.slots, pending.ask.slot);
    if (slot === undefined) return undefined;
    const value = slot.asTyped ? sentence.typed : wholly(slot.read, sentence, this.#listening);
    if (value === undefined) return undefined;
    // Any word can be a tank's name, but "out" is said with film in the bath.
    if (slot.read === readers.newTank && this.#match(sentence) !== undefined) return undefined;
    return this.#answered(pending, {
      command,
      fields: { ...pending.ask.fields, [pending.ask.slot]: value },
    });
  }

  /**
   * An answer that is refused leaves its question open, unless another figure is what is wrong.
   * Only whether to is not asked twice.
   */
  #answered({ ask, settles }: Pending, choice: Choice): Heard {
    const heard = this.#run(choice);
    const { reply, after } = heard;
    const whether = ask.options?.some(({ word }) => word === "yes") === true;
    const other = settles !== undefined || (reply.facts.field ?? ask.slot) !== ask.slot;
    // What is only talked about beside the work asks once: the next words may be anything.
    if (reply.kind !== "refusal" || reply.ask !== undefined || choice.command.aside) return heard;
    if (whether || other) return heard;
    const asked = this.#thread.last?.reply;
    const again = asked?.kind === "question" && asked.ask?.slot === ask.slot ? [asked.title] : [];
    const thread = { ...ownValue(after.threads, this.#who), pending: { ask, at: this.#now } };
    return {
      ...heard,
      reply: { ...reply, lines: [...reply.lines, ...again], ask },
      after: withThread(after, this.#who, thread),
    };
  }

  /** "in south" is no answer to "which tank?" while South is being filled: film is wet by it. */
  #isIn({ ask }: Pending, sentence: Words): boolean {
    if (ask.slot !== "tank" || sentence.words[0] !== "in") return false;
    const best = this.#match(sentence);
    const { tank } = best?.fields ?? {};
    const run = typeof tank === "string" ? runOfTank(this.#record.bench, tank) : undefined;
    return best?.command.name === "in" && run !== undefined && awaitsIn(run, this.#now);
  }

  #leftAsItWas(): Heard {
    return this.#plain(answer({ title: "Left as it was.", say: "Left as it was." }), {
      keepQuestion: false,
    });
  }

  /**
   * A number alone, said beside an open run and no answer to anything: what the thermometer reads. One
   * that no darkroom thermometer reads (below 10 or above 60 °C, our own bound) is none.
   */
  #bareReading(pending: Pending | undefined, sentence: Words): Choice | undefined {
    const command = this.#commandNamed("temperature");
    if (command === undefined || liveRuns(this.#record.bench).length === 0) return undefined;
    const asking = pending === undefined ? undefined : this.#commandNamed(pending.ask.command);
    if (pending !== undefined && asking !== undefined && isFreeText(asking, pending))
      return undefined;
    const words = sentence.words.filter((word) => !aroundReading.has(word));
    const temperature = wholly(readers.reading, { ...sentence, words }, this.#listening);
    if (temperature === undefined) return undefined;
    const odd = typeof temperature === "number" && (temperature < 10 || temperature > 60);
    return odd ? undefined : { command, fields: { temperature } };
  }

  /** Free text that may look like a command: it is the answer, unless it cannot be read as one. */
  #eagerly({ ask }: Pick<Pending, "ask">, sentence: Words, best: Choice | undefined): Heard {
    const command = this.#commandNamed(ask.command);
    if (command === undefined) return this.#unknown(sentence);
    const heard = this.#run({ command, fields: { ...ask.fields, [ask.slot]: sentence.typed } });
    const unread = heard.reply.facts.reason === "not-read";
    // "skip" and "no" meant the question, and never a bath of the run beside it.
    const other = ["skip", "cancel"].includes(best?.command.name ?? "") ? undefined : best;
    return unread && other !== undefined ? this.#run(other) : heard;
  }

  #forgetQuestion(): Talk {
    return this.#with(withThread(this.#record, this.#who, { ...this.#thread, pending: undefined }));
  }

  #with(record: BenchRecord): Talk {
    const listening = listeningOf(record.bench, this.#now);
    const speaker = { who: this.#who, standing: this.#standing, saidAt: this.#saidAt };
    return new Talk(record, speaker, this.#now, this.#commands, listening, this.#known);
  }

  /** Which ounce and which degree the bench uses is asked once and kept; one that is set stays. */
  #learnHabit(kind: string, word: string): Talk {
    const { bench } = this.#record;
    if (kind === "degrees" && bench.degrees === undefined) {
      const degrees = word === "celsius" ? ("C" as const) : ("F" as const);
      return this.#with({ ...this.#record, bench: { ...bench, degrees } });
    }
    if (kind === "country") {
      const country = word === "us" ? ("us" as const) : ("imperial" as const);
      return this.#with({ ...this.#record, bench: { ...bench, country } });
    }
    return this;
  }

  #run({ command, fields }: Choice): Heard {
    const right = rightNeeded(command, fields, this.#who);
    if (!mayUse(this.#standing, right)) return this.#plain(notYours, { keepQuestion: false });
    const settled = this.#settle(command, fields);
    if ("reply" in settled) return settled;
    const { bench } = this.#record;
    const reads =
      typeof command.reads === "function" ? command.reads(bench, settled.fields) : command.reads;
    const past = reads === "past-runs" ? this.#known.past : noPast;
    if (past === "unread") return { reply: unread, after: this.#record, lacks: "past-runs" };
    const exports = reads === "exports" ? this.#known.exports : [];
    if (exports === "unread") return { reply: unread, after: this.#record, lacks: "exports" };
    const at: Handling = {
      bench,
      past,
      exports,
      now: this.#now,
      saidAt: this.#saidAt,
      who: this.#who,
      standing: this.#standing,
      last: lastSaid(this.#thread.last, this.#record.lastCue),
      figured: this.#thread.figured,
      undoable: this.#record.undo,
      listening: this.#listening,
      commands: this.#commands,
    };
    const outcome = command.handle(at, settled.fields);
    const reply = withDamaged(outcome.reply, past.damaged);
    return this.#keep(command, { ...outcome, reply }, right);
  }

  /** Values that could not be read are said back; values with two meanings are asked about. */
  #settle(
    command: Command,
    fields: Readonly<Record<string, unknown>>,
  ): { readonly fields: Readonly<Record<string, unknown>> } | Heard {
    for (const [slot, value] of Object.entries(fields)) {
      if (isUnreadable(value)) {
        return this.#plain(
          refuse(
            "unreadable-number",
            `I read "${value.unreadable}", which is no number I can use. Give a plain one.`,
            {
              say: "That is no number I can use.",
              facts: { field: slot },
            },
          ),
        );
      }
      if (isUnsettled(value)) return this.#askWhich(command, fields, slot, value);
    }
    return { fields };
  }

  #askWhich(
    command: Command,
    fields: Readonly<Record<string, unknown>>,
    slot: string,
    open: Unsettled,
  ): Heard {
    const title = whichOne(open);
    const { [slot]: _, ...rest } = fields;
    const options = toJson({ options: open.choices }).options as readonly Option[];
    const ask = { command: command.name, fields: toJson(rest), slot, options };
    const say = open.say === undefined ? {} : { say: open.say };
    const reply = question(ask, title, { ...say, facts: { field: slot, heard: open.heard } });
    return this.#plain(reply, { pending: { ask, at: this.#now, settles: open.unsettled } });
  }

  /** Stores what a command did: the bench, one undo step, the open question and the last reply. */
  #keep(command: Command, outcome: Outcome, right: Right): Heard {
    const before = this.#record.bench;
    const { bench: settled, reply: said, retimed } = settleRuns(before, outcome, this.#now);
    const undid = outcome.undid === true;
    const bench: Bench =
      settled === undefined ? before : undid ? settled : signWork(before, settled, this.#who);
    const reply = markRehearsal(bench, saidRetimed(said, retimed));
    const kept = withoutPicture(reply);
    let { undo } = this.#record;
    if (undid) undo = undo.slice(0, -1);
    else if (bench !== before && command.changes && !command.aside) {
      const changes = diff(bench, before);
      const whose = right === "owner" ? { right } : {};
      const step = { label: reply.title, at: this.#now, changes, ...whose };
      undo = [...undo, step].slice(-UNDO_STEPS);
    }
    // What a command asked itself is answered with this, whatever other questions it leaves open.
    const isOwn = this.#pending?.ask.command === command.name;
    const keepsQuestion = command.aside && reply.ask === undefined && !isOwn;
    const pending =
      reply.ask !== undefined
        ? { ask: reply.ask, at: this.#now }
        : keepsQuestion
          ? this.#pending
          : undefined;
    const after = withThread({ ...this.#record, bench, undo }, this.#who, {
      pending,
      last: command.name === "again" ? this.#thread.last : { reply: kept, at: this.#now },
      figured: command.aside || !hasFigures(reply) ? this.#thread.figured : kept,
    });
    return { reply, after, work: outcome.work };
  }

  /** A reply that comes from the talk itself, not from a command. */
  #plain(
    reply: Reply,
    { pending, keepQuestion = true }: { pending?: Pending; keepQuestion?: boolean } = {},
  ): Heard {
    const open = pending ?? (keepQuestion ? this.#pending : undefined);
    return {
      reply,
      after: withThread(this.#record, this.#who, {
        ...this.#thread,
        pending: open,
        last: { reply, at: this.#now },
      }),
    };
  }

  /** Not an answer to the open question and nothing else either: ask again. */
  #unclear(sentence: Words, pending: Pending): Heard {
    const options = pending.ask.options?.map(({ word }) => word);
    const how = options === undefined ? "" : ` Say ${listWords(options)}, or cancel.`;
    const title = `I heard "${short(sentence.typed)}", which does not answer my question.${how}`;
    return this.#plain(
      question(pending.ask, title, {
        say: oneBreath(
          options === undefined
            ? "That is no answer. Say it again."
            : `That is no answer. Say ${listWords(options)}.`,
        ),
      }),
    );
  }

  /** A slip of the pen: mended it is something we can do. */
  #didYouMean(sentence: Words): Heard | undefined {
    const { correction } = nearest(sentence, this.#commands, this.#listening);
    if (correction === undefined || this.#match(toWords(correction)) === undefined)
      return undefined;
    const options = [
      { word: "yes", value: true },
      { word: "no", value: false },
    ];
    const ask = { command: "", fields: {}, slot: "yes", options };
    const reply = question(ask, `Did you mean "${correction}"?`);
    return this.#plain(reply, { pending: { ask, at: this.#now, sentence: correction } });
  }

  #unknown(sentence: Words): Heard {
    const retired = retiredNamed(this.#record.bench, sentence.words);
    if (retired !== undefined) return this.#plain(retiredReply(retired), { keepQuestion: false });
    const slip = this.#didYouMean(sentence);
    if (slip !== undefined) return slip;
    const { commands } = nearest(sentence, this.#commands, this.#listening);
    const lines = commands.map(({ examples, summary }) => `${examples[0] ?? ""}: ${summary}`);
    return this.#plain(
      refuse(
        "not-understood",
        `I do not know what to do with "${short(sentence.typed)}". Nearest I can do:`,
        {
          say: tellsOfHarm(sentence)
            ? "Not understood. Anyone hurt? Say emergency. Film in danger? Say trouble."
            : "I did not understand. Say help for what I can do.",
          lines,
          facts: { nearest: commands.map(({ name }) => name) },
        },
      ),
      { keepQuestion: false },
    );
  }
}

/** A sheet half taught is gone on with, however long the paper was looked for. */
const teaching: Pick<Pending, "ask"> = {
  ask: { command: "learn", fields: {}, slot: "answer", eager: true },
};

/** What is said around a number that was just read. */
const aroundReading = new Set(["it", "its", "is", "now", "reads", "says", "at", "about"]);

/** Words that are never an answer: about the talk itself, or about the sheet being taught. */
const outranksAnswer = ({ command }: Choice): boolean =>
  command.aside ||
  ["learn", "change", "stop teaching", "undo", "bottles", "sheets"].includes(command.name);

/** What was learnt along the way is said once, with the way to change it. */
const saidHabit = ({ reply, ...heard }: Heard, word: string): Heard => {
  const whose = word === "us" ? "US" : "Imperial";
  const other = word === "us" ? "Imperial" : "US";
  const line =
    word === "celsius" || word === "fahrenheit"
      ? `Degrees without a scale are ${word === "celsius" ? "Celsius" : "Fahrenheit"} from now on; set degrees ${word === "celsius" ? "F" : "C"} changes that.`
      : `${whose} ounces and quarts from now on; use ${other} ounces changes that.`;
  return { ...heard, reply: { ...reply, lines: [...reply.lines, line] } };
};

/** Never shown: the turn is taken again once the past is read. */
const unread = answer({ title: "One moment.", say: "One moment." });

/** So many damaged records are named; of more, how many. */
const NAMED = 3;

/** An answer about the past says which records it had to do without. */
function withDamaged(reply: Reply, damaged: readonly string[]): Reply {
  if (damaged.length === 0) return reply;
  const more = damaged.length - NAMED;
  const rest = more > 0 ? [`${more} more record${more === 1 ? "" : "s"} cannot be read.`] : [];
  return { ...reply, cautions: [...reply.cautions, ...damaged.slice(0, NAMED), ...rest] };
}

/** Other tanks whose developer time is another by this: said once, aloud where a breath is left. */
function saidRetimed(reply: Reply, retimed: readonly Retimed[]): Reply {
  const [first] = retimed;
  if (first === undefined) return reply;
  const said = retimed.length === 1 ? `${reply.say} ${sayRetimed(first)}` : reply.say;
  return {
    ...reply,
    lines: [...reply.lines, ...retimed.map((one) => `${one.tank}: ${retimedWords(one)}`)],
    say: oneBreath(said) === said ? said : reply.say,
  };
}

const pourIsOpen = (bench: Bench, now: Instant): boolean =>
  liveRuns(bench).some((run) => standing(run, now).kind === "pouring");

const hasFigures = ({ kind, working, figures }: Reply): boolean =>
  kind === "refusal" || working.length > 0 || Object.keys(figures).length > 0;

const lastSaid = (reply: Said | undefined, cue: Said | undefined): Reply | undefined =>
  reply !== undefined && (cue === undefined || reply.at >= cue.at) ? reply.reply : cue?.reply;

const isFreeText = (command: Command, pending: Pending): boolean =>
  pending.settles === undefined && ownValue(command.slots, pending.ask.slot)?.asTyped === true;

function wholly(
  read: (
    words: readonly string[],
    from: number,
    listening: Listening,
  ) => readonly { value: unknown; next: number }[],
  sentence: Words,
  listening: Listening,
): unknown {
  const { words } = sentence;
  const from = words.findIndex((word) => !["it", "is", "the", "about"].includes(word));
  return read(words, Math.max(0, from), listening).find(({ next }) => next === words.length)?.value;
}

const short = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}...` : text);
