import type { Work } from "../../commands/work.ts";
import type { Change } from "../../domain/changes.ts";
import type { Run } from "../../domain/session/run.ts";
import type { Instant } from "../../domain/units/quantity.ts";
import type { Reply } from "../../reply/reply.ts";
import type { Message } from "../turn.ts";

/** What the thread that looks back is told, in order. */
export type Asked =
  /** A bench as new; `changes` make of it what it is. Its archived runs lie in `archive`. */
  | {
      readonly kind: "open";
      readonly bench: string;
      readonly zone: string;
      readonly archive: string;
    }
  | { readonly kind: "changes"; readonly bench: string; readonly changes: readonly Change[] }
  /** These runs have left the bench for files. */
  | { readonly kind: "archived"; readonly bench: string; readonly runs: readonly Run[] }
  | {
      readonly kind: "turn";
      readonly bench: string;
      readonly message: Message;
      readonly now: Instant;
      readonly ticket: number;
    }
  | { readonly kind: "drop"; readonly bench: string };

/** What a turn came to; `changes` make the record after it of the one before it. */
export type FarTurn = {
  readonly reply: Reply;
  readonly changes: readonly Change[];
  readonly work?: Work | undefined;
};

/** What it answers. */
export type Told =
  | { readonly ticket: number; readonly turn: FarTurn }
  | { readonly ticket: number; readonly fault: unknown };
