import { capital } from "../domain/capital.ts";
import { type Origin, showOrigin } from "../domain/origin.ts";
import type { Season } from "../domain/record/season.ts";
import type { SharedSession } from "../domain/record/session-schema.ts";
import type { Chart } from "../domain/session/chart.ts";
import { rounded } from "./round-values.ts";

export type Json =
  | string
  | number
  | boolean
  | null
  | readonly Json[]
  | { readonly [key: string]: Json };

/** A number, or a list of them, with the place it comes from. Numbers are in base units; the unit is in the key. */
export type Shown = { readonly value: Json; readonly origin: Origin };

/** What kind of moment it is: nothing presses, or a bath is working on film. */
export type Moment =
  | { readonly kind: "no-clock" }
  | {
      readonly kind: "running";
      readonly tank: string;
      readonly bath: string;
      readonly left_s: number;
    };

export type Option = { readonly word: string; readonly value: Json };

/** A question the bench waits on: the answer goes into `slot` of `command`. */
export type Ask = {
  readonly command: string;
  readonly fields: { readonly [name: string]: Json };
  readonly slot: string;
  /** Short answers offered, for buttons and for reading aloud, each with the value it stands for. */
  readonly options?: readonly Option[] | undefined;
  /** The answer is free text and may look like a command: it is tried as an answer first. */
  readonly eager?: boolean | undefined;
  /** Nobody has to answer: whatever else may have been meant, a misspelt command too, goes first. */
  readonly optional?: boolean | undefined;
};

/** What its files are called, without an ending. */
type Named = { readonly name: string };

/** Something to look at beside the words. What is drawn of it, and how large, is the channel's. */
export type ReplyPicture = Named &
  (
    | { readonly kind: "temperature-chart"; readonly chart: Chart; readonly zone: string }
    /** `words`: the same for those who do not see it. */
    | {
        readonly kind: "session";
        readonly session: SharedSession;
        readonly words: readonly string[];
      }
    | { readonly kind: "season"; readonly season: Season; readonly words: readonly string[] }
  );

/** A text to keep beside the words, as a file or as an attachment. */
export type ReplyDocument = Named & {
  readonly kind: "markdown" | "json";
  readonly text: string;
};

/** What would go out of a run, and nothing else of it. */
export type ReplyShare = {
  readonly run: string;
  readonly title: string;
  readonly lines: readonly string[];
  /** What goes with the words, where it is shared as a picture. */
  readonly picture?: ReplyPicture | undefined;
};

export type ReplyKind = "reply" | "cue" | "reminder" | "refusal" | "question";

/** The one value every channel renders. `say` is one breath: at most 12 words. */
export type Reply = {
  readonly kind: ReplyKind;
  readonly title: string;
  readonly lines: readonly string[];
  readonly say: string;
  /** Figures by key, each with its origin; the JSON `values` and `origins` come from here. */
  readonly figures: { readonly [key: string]: Shown };
  /** Names, words and states that need no origin. */
  readonly facts: { readonly [key: string]: Json };
  readonly cautions: readonly string[];
  /** The working, for `why`: inputs, formula in words, what was assumed. */
  readonly working: readonly string[];
  readonly ask?: Ask | undefined;
  readonly picture?: ReplyPicture | undefined;
  readonly document?: ReplyDocument | undefined;
  /** This is the preview of what others would see of a run: a channel may pass it on after a yes. */
  readonly share?: ReplyShare | undefined;
  /** This is what was said yes to: a channel that shows it to others does so now. */
  readonly shared?: true | undefined;
  /** Filled by the conversation: what kind of moment it is. */
  readonly clock?: Moment | undefined;
};

export type ReplyParts = Partial<Omit<Reply, "kind" | "title" | "say">> & {
  readonly title: string;
  readonly say: string;
};

const blank = { lines: [], figures: {}, facts: {}, cautions: [], working: [] } as const;

/** A sentence begins with a capital, whichever bath's name it begins with. */
function make(kind: ReplyKind, parts: ReplyParts): Reply {
  const say = capital(oneBreath(parts.say));
  return { kind, ...blank, ...parts, title: capital(parts.title), say };
}

export const answer = (parts: ReplyParts): Reply => make("reply", parts);
export const cue = (parts: ReplyParts): Reply => make("cue", parts);
export const reminder = (parts: ReplyParts): Reply => make("reminder", parts);

/**
 * Says no, with what was read and what to give instead. `reason` is a stable kebab-case word.
 */
export const refuse = (
  reason: string,
  title: string,
  parts: Partial<Omit<Reply, "kind" | "title">> = {},
): Reply =>
  make("refusal", {
    say: oneBreath(title),
    ...parts,
    title,
    facts: { ...parts.facts, reason },
  });

/** Asks one question and waits for it. */
export const question = (
  ask: Ask,
  title: string,
  parts: Partial<Omit<Reply, "kind" | "title" | "ask">> = {},
): Reply => make("question", { say: oneBreath(title), ...parts, title, ask });

/** Characters of a word that is said; a name without a space may be longer. */
const LONGEST_WORD = 60;

/**
 * What of a text fits in one breath of 12 words: whole sentences if one fits, else whole clauses.
 */
export function oneBreath(text: string): string {
  const words = text
    .split(/\s+/)
    .filter((word) => word !== "")
    .map((word) => (word.length > LONGEST_WORD ? `${word.slice(0, LONGEST_WORD - 1)}…` : word));
  if (words.length <= 12) return words.join(" ");
  const head = words.slice(0, 12);
  for (const end of [/[.?!]"?$/, /[;:,]$/]) {
    const last = head.findLastIndex((word) => end.test(word));
    if (last >= 1)
      return head
        .slice(0, last + 1)
        .join(" ")
        .replace(/[;:,]$/, ".");
  }
  return head.join(" ");
}

/**
 * A reply as it is kept: what a picture or a document holds stands in the bench already, and what
 * is said again is not shared again.
 */
export function withoutPicture(reply: Reply): Reply {
  const { picture: _, document: __, shared: ___, share, ...rest } = reply;
  if (share === undefined) return rest;
  const { picture: ____, ...words } = share;
  return { ...rest, share: words };
}

export function valuesOf(reply: Reply): Record<string, Json> {
  const values: Record<string, Json> = {};
  for (const [key, fact] of Object.entries(reply.facts)) values[key] = rounded(fact, key);
  for (const [key, figure] of Object.entries(reply.figures)) {
    values[key] = rounded(figure.value, key);
  }
  return values;
}

export function originsOf(reply: Reply): Record<string, string> {
  const origins: Record<string, string> = {};
  for (const [key, figure] of Object.entries(reply.figures))
    origins[key] = showOrigin(figure.origin);
  return origins;
}
