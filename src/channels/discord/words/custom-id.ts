import { createHash } from "node:crypto";

/** What a button stands for. */
export type ButtonMeaning = {
  /** The bench it belongs to. */
  readonly bench: string;
  readonly word: string;
  /** What it answers: one question, one moment of a run, one reminder; missing: it is always good. */
  readonly asked?: string | undefined;
};

export type ReadId =
  | ({ readonly kind: "button" } & ButtonMeaning)
  /** Ours, from a version that is not read any more. */
  | { readonly kind: "outdated" }
  /** Looks like ours, but is not as we made it: damaged, or made up by somebody. */
  | { readonly kind: "damaged" }
  | { readonly kind: "foreign" };

const VERSION = "w1";
const MOST = 100;

/** Tells a damaged id from an old one. It is no secret: what a person may do is checked elsewhere. */
const checkOf = (body: string): string =>
  createHash("sha256").update(`wetside ${body}`).digest("base64url").slice(0, 8);

const put = (part: string): string => encodeURIComponent(part.toWellFormed());

/** @throws RangeError when the parts do not fit the 100 characters of an id: that is a bug */
function make({ bench, word, asked = "" }: ButtonMeaning): string {
  const body = [VERSION, put(bench), put(word), put(asked)].join(":");
  const id = `${body}:${checkOf(body)}`;
  if (id.length > MOST) throw new RangeError(`button id of ${id.length} characters: ${word}`);
  return id;
}

/** Never throws, whatever is sent. */
function read(id: string): ReadId {
  const version = /^w(\d{1,3}):/.exec(id);
  if (version === null) return { kind: "foreign" };
  const body = id.slice(0, id.lastIndexOf(":"));
  if (id.length > MOST || id.slice(body.length + 1) !== checkOf(body)) return { kind: "damaged" };
  if (`w${version[1]}` !== VERSION) return { kind: "outdated" };
  const [bench = "", word = "", asked = "", ...more] = body.slice(VERSION.length + 1).split(":");
  if (bench === "" || word === "" || more.length > 0) return { kind: "damaged" };
  try {
    return {
      kind: "button",
      bench: decodeURIComponent(bench),
      word: decodeURIComponent(word),
      asked: asked === "" ? undefined : decodeURIComponent(asked),
    };
  } catch {
    return { kind: "damaged" };
  }
}

/** The ids of buttons and forms. */
export const customId = { make, read };
