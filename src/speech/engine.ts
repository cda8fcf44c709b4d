import type { PlainNet } from "./grammar/word-net.ts";

/** What an engine made of one utterance. */
export type EngineHeard = {
  /** Words for the parser, lower case; empty when it was no command. */
  readonly text: string;
  /**
   * How much better the words explain the sound than any sounds in any order would, per 10 ms; 0 is
   * as good as. An engine that has no such figure gives its own certainty, 0 to 1, times ten.
   */
  readonly score: number;
};

/** What can be said from now on: the closed grammar, and its words for engines that take a list. */
export type EngineGrammar = { readonly net: PlainNet; readonly words: ReadonlySet<string> };

/**
 * A recogniser. It lives in the thread of the ear, takes 16 kHz samples of one utterance as they
 * come, and may take its time only in `end`.
 */
export type Engine = {
  /** @throws a `SpeechMissing` or any other error when it cannot work */
  prepare(grammar: EngineGrammar): Promise<void>;
  begin(): void;
  feed(samples: Int16Array): void;
  end(): Promise<EngineHeard>;
  close(): void;
};

/** What an engine is chosen by, as plain data that can be sent to a thread. */
export type EngineChoice =
  | { readonly kind: "sphinx"; readonly model: string }
  /** A program of the user's, see README: a bigger model, in any language. */
  | { readonly kind: "program"; readonly command: readonly string[] };
