/**
 * What a command wants done with files. Handlers only describe it: whoever holds the store does it
 * once the turn is kept, and answers in the turn's place.
 */
export type Work =
  | { readonly kind: "export"; readonly name: string }
  | { readonly kind: "restore"; readonly file: string }
  | { readonly kind: "forget-member"; readonly who: string }
  | { readonly kind: "forget-bench" };

/** What a command may have to be given from files before it runs. */
export type Reads = "past-runs" | "exports";

/** An archive in the folder exports, looked at from the outside. */
export type ExportFile = {
  readonly name: string;
  readonly bytes: number;
  /** What it says of itself, or a sentence on why it cannot be taken. */
  readonly holds: ExportHolds | { readonly wrong: string };
};

export type ExportHolds = {
  readonly bench: string;
  /** ISO instant. */
  readonly made: string;
  readonly counts: {
    readonly runs: number;
    readonly bottles: number;
    readonly sheets: number;
    readonly rolls: number;
    readonly reminders: number;
    readonly pictures: number;
  };
  /** Runs whose files could not be read when it was made. */
  readonly missing: readonly string[];
};
