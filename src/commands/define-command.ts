import type { z } from "zod";
import type { Change } from "../domain/changes.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Past } from "../domain/session/past.ts";
import { celsius, type Instant, millilitres, seconds } from "../domain/units/quantity.ts";
import { showCelsius, showDuration, showVolume } from "../domain/units/show.ts";
import type { SlotReading } from "../language/match.ts";
import type { Listening } from "../language/reader.ts";
import { type ReaderName, readers, takenAsTyped } from "../language/readers/all.ts";
import { parseTemplate, type Template } from "../language/template.ts";
import {
  type Ask,
  type Json,
  type Option,
  oneBreath,
  question,
  type Reply,
  refuse,
} from "../reply/reply.ts";
import { movedValues } from "./moved-values.ts";
import type { Right, Standing } from "./permissions.ts";
import type { ExportFile, Reads, Work } from "./work.ts";

/** What a handler may look at. Same bench, fields and moment: same outcome. */
export type Handling = {
  readonly bench: Bench;
  /** Runs in files of their own; none where the command does not say that it `reads` them. */
  readonly past: Past;
  /** Archives in the folder exports, the newest first; none where it does not `read` them. */
  readonly exports: readonly ExportFile[];
  readonly now: Instant;
  /** When it was said: before `now` where a channel said it back first. */
  readonly saidAt: Instant;
  /** Who speaks, as the channel names them. */
  readonly who: string;
  readonly standing: Standing;
  /** What was said last, to this person or as a cue, for `again`. */
  readonly last: Reply | undefined;
  /** The latest reply that held figures, for `why`. */
  readonly figured: Reply | undefined;
  /** What `undo` would take back, newest last. */
  readonly undoable: readonly {
    readonly label: string;
    readonly changes: readonly Change[];
    readonly right?: "owner" | undefined;
  }[];
  readonly listening: Listening;
  /** All commands, for help. */
  readonly commands: readonly Command[];
};

export type Outcome = {
  readonly reply: Reply;
  /** The bench after it; missing when nothing changed. */
  readonly bench?: Bench | undefined;
  /** `undo` took back the last change: it is not to be offered again. */
  readonly undid?: boolean | undefined;
  /** What is to be done with files; its answer is given in the place of `reply`. */
  readonly work?: Work | undefined;
};

type Fields = z.ZodObject;

type ReadsFor =
  | Reads
  | ((bench: Bench, fields: Readonly<Record<string, unknown>>) => Reads | undefined);

export type CommandSpec<F extends Fields> = {
  readonly name: string;
  readonly summary: string;
  /** The help page it stands on. */
  readonly topic: Topic;
  readonly sentences: readonly string[];
  /** A sentence is only this command's if it holds one of these words: "percent", say. */
  readonly needs?: readonly string[];
  /** Which reader reads which field; a field without an entry is read by the reader of its name. */
  readonly slots?: { readonly [K in keyof z.input<F>]?: ReaderName };
  readonly examples: readonly string[];
  /** A message of the schema is the question asked when the field is missing. */
  readonly fields: F;
  /** `member` where left out; see `permissions.ts`. */
  readonly who?: Right;
  /** Fields only an owner gives, in a command that is otherwise everyone's. */
  readonly ownerFields?: readonly Extract<keyof z.input<F>, string>[];
  /** Fields that name a person: only an owner names another than themselves. */
  readonly selfFields?: readonly Extract<keyof z.input<F>, string>[];
  readonly changes: boolean;
  /** Not taken back by `undo`, and does not put an open question aside. */
  readonly aside?: boolean;
  /** What has to be read from files before it runs, for any fields or by these. */
  readonly reads?: ReadsFor;
  /** Every key of the JSON `values`, in words with its unit. */
  readonly values: Readonly<Record<string, string>>;
  run(at: Handling, fields: z.output<F>): Reply | Outcome;
};

export const topics = [
  "mix",
  "bottle",
  "film",
  "sheet",
  "run",
  "arithmetic",
  "reminder",
  "bench",
  "emergency",
] as const;
export type Topic = (typeof topics)[number];

/** A command as the rest of the program sees it: fields are checked inside. */
export type Command = {
  readonly name: string;
  readonly summary: string;
  readonly topic: Topic;
  readonly sentences: readonly Template[];
  readonly slots: Readonly<Record<string, SlotReading>>;
  readonly examples: readonly string[];
  readonly fields: Fields;
  readonly who: Right;
  readonly ownerFields: readonly string[];
  readonly selfFields: readonly string[];
  readonly changes: boolean;
  readonly aside: boolean;
  readonly reads?: ReadsFor;
  readonly values: Readonly<Record<string, string>>;
  handle(at: Handling, raw: Readonly<Record<string, unknown>>): Outcome;
};

const movers: ReadonlySet<Topic> = new Set(["run", "bench"]);

const isReader = (name: string): name is ReaderName => Object.hasOwn(readers, name);

/** @throws at start when a template names a slot that is no field or has no reader */
export function defineCommand<F extends Fields>(spec: CommandSpec<F>): Command {
  const needs = spec.needs === undefined ? [] : [spec.needs];
  const sentences = spec.sentences.map((text) => {
    const template = parseTemplate(text);
    return { ...template, required: [...template.required, ...needs] };
  });
  const slots: Record<string, SlotReading> = {};
  const named = spec.slots as Readonly<Record<string, ReaderName | undefined>> | undefined;
  for (const field of Object.keys(spec.fields.shape)) {
    const reader = named?.[field] ?? field;
    if (!isReader(reader)) continue;
    slots[field] = { read: readers[reader], asTyped: takenAsTyped.has(reader) };
  }
  for (const template of sentences) {
    for (const slot of template.slots) {
      if (slots[slot] === undefined) throw new Error(`${spec.name}: no reader for {${slot}}`);
    }
  }
  return {
    ...spec,
    // A command that moves a run may move those that have not begun as well.
    values:
      spec.changes && movers.has(spec.topic) ? { ...spec.values, ...movedValues } : spec.values,
    sentences,
    slots,
    who: spec.who ?? "member",
    ownerFields: spec.ownerFields ?? [],
    selfFields: spec.selfFields ?? [],
    aside: spec.aside ?? false,
    handle(at, raw) {
      const parsed = spec.fields.safeParse(raw);
      if (!parsed.success) return { reply: askOrRefuse(spec, raw, parsed.error) };
      const outcome = spec.run(at, parsed.data);
      return "reply" in outcome ? outcome : { reply: outcome };
    },
  };
}

/** The first thing wrong with the fields: a missing one is asked for, a bad one is said back. */
function askOrRefuse<F extends Fields>(
  spec: CommandSpec<F>,
  raw: Readonly<Record<string, unknown>>,
  error: z.ZodError,
): Reply {
  const issue = error.issues[0];
  const slot = String(issue?.path[0] ?? "");
  const message = issue?.message ?? "I could not read that.";
  if (raw[slot] === undefined) {
    return question({ command: spec.name, fields: toJson(raw), slot }, message);
  }
  const read = showRaw(spec, slot, raw[slot]);
  return refuse("out-of-range", read === undefined ? message : `I read ${read}. ${message}`, {
    say: oneBreath(message),
    facts: { field: slot, read: toJson({ read: raw[slot] }).read ?? null },
  });
}

/** A number as it was understood, with its unit, so that a slip is seen. */
function showRaw<F extends Fields>(
  spec: CommandSpec<F>,
  slot: string,
  value: unknown,
): string | undefined {
  if (typeof value !== "number" || !Number.isFinite(value)) return undefined;
  const named = spec.slots as Readonly<Record<string, ReaderName | undefined>> | undefined;
  switch (named?.[slot] ?? slot) {
    case "volume":
      return showVolume(millilitres(value));
    case "duration":
      return showDuration(seconds(value));
    case "temperature":
    case "reading":
      return showCelsius(celsius(value));
    default:
      return String(value);
  }
}

/** Raw fields as they can be kept until the answer comes, and read back the same. */
export function toJson(raw: Readonly<Record<string, unknown>>): Record<string, Json> {
  // A key of this name is left out by whoever reads a record.
  const kept = (key: string, value: unknown): unknown => (key === "__proto__" ? undefined : value);
  return JSON.parse(JSON.stringify(raw, kept)) as Record<string, Json>;
}

/**
 * A question of the command itself, whose answer goes into one more field. An option given as a
 * bare word stands for itself.
 */
export const askFor = (
  command: string,
  fields: Readonly<Record<string, unknown>>,
  slot: string,
  title: string,
  options?: readonly (string | Option)[],
  parts: Parameters<typeof question>[2] = {},
): Reply => {
  const offered = options?.map((one) =>
    typeof one === "string" ? { word: one, value: one } : one,
  );
  const ask: Ask = { command, fields: toJson(fields), slot, options: offered };
  return question(ask, title, parts);
};

/** A question that wants yes or no in the boolean field `slot`. */
export const confirm = (
  command: string,
  fields: Readonly<Record<string, unknown>>,
  slot: string,
  title: string,
  parts: Parameters<typeof question>[2] = {},
): Reply =>
  askFor(
    command,
    fields,
    slot,
    title,
    [
      { word: "yes", value: true },
      { word: "no", value: false },
    ],
    parts,
  );
