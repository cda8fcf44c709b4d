import { z } from "zod";
import type { Change } from "../domain/changes.ts";
import { type Bench, benchSchema, newBench } from "../domain/session/bench.ts";
import type { Instant } from "../domain/units/quantity.ts";
import { storedInstant } from "../domain/units/stored.ts";
import type { Ask, Json, Reply } from "../reply/reply.ts";

export type Pending = {
  readonly ask: Ask;
  readonly at: Instant;
  /** The question is which of two meanings a word had; the kind tells what to remember of the answer. */
  readonly settles?: string | undefined;
  /** The sentence to run instead, when the question was "did you mean". */
  readonly sentence?: string | undefined;
};

/** What one person and the bench were saying. */
export type Thread = {
  readonly pending?: Pending | undefined;
  /** The reply before, for `again`. */
  readonly last?: Said | undefined;
  /** The latest reply that held figures, for `why`. */
  readonly figured?: Reply | undefined;
};

export type Said = { readonly reply: Reply; readonly at: Instant };

export type UndoStep = {
  readonly label: string;
  readonly at: Instant;
  readonly changes: readonly Change[];
  /** Only they may take it back; missing: every member. */
  readonly right?: "owner" | undefined;
};

/** All that is stored of one bench: the bench itself, and the talk around it. */
export type BenchRecord = {
  readonly schemaVersion: 1;
  readonly bench: Bench;
  readonly threads: Readonly<Record<string, Thread>>;
  readonly undo: readonly UndoStep[];
  readonly lastCue?: Said | undefined;
};

/** What is read from JSON or checked to be plain: to look into it once more would cost the most. */
const plain = z.custom<Json>((value) => value !== undefined);

const figure = z.object({ value: plain, origin: z.looseObject({ kind: z.string() }) });

/** Made once: to build it for every record that is looked at would cost more than looking. */
const replyOutline = z.looseObject({
  kind: z.string(),
  title: z.string(),
  say: z.string(),
  lines: z.array(z.string()),
  figures: z.record(z.string(), figure),
  facts: z.record(z.string(), plain),
  cautions: z.array(z.string()),
  working: z.array(z.string()),
});

/** A reply as it was given. Its parts were made by us; only their outline is checked. */
const replySchema = z.custom<Reply>((value) => replyOutline.safeParse(value).success);

const at = storedInstant;
const saidSchema = z.object({ reply: replySchema, at });
const fields = z.record(z.string(), z.json());

const pendingSchema = z.object({
  ask: z.object({
    command: z.string(),
    fields,
    slot: z.string(),
    options: z.array(z.object({ word: z.string(), value: z.json() })).optional(),
    eager: z.boolean().optional(),
    optional: z.boolean().optional(),
  }),
  at,
  settles: z.string().optional(),
  sentence: z.string().optional(),
});

const path = z.array(z.union([z.string(), z.number()]));
const change: z.ZodType<Change> = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("set"), path, value: z.unknown() }),
  z.object({ kind: z.literal("drop"), path }),
  z.object({ kind: z.literal("push"), path, items: z.array(z.unknown()) }),
]);

export const recordSchema = z.object({
  schemaVersion: z.literal(1),
  bench: benchSchema,
  threads: z.record(
    z.string(),
    z.object({
      pending: pendingSchema.optional().catch(undefined),
      // What was said is kept for again and why; one in an older form is let go, never the bench.
      last: saidSchema.optional().catch(undefined),
      figured: replySchema.optional().catch(undefined),
    }),
  ),
  // What cannot be taken back any more is let go, never the bench.
  undo: z
    .array(
      z.object({
        label: z.string(),
        at,
        changes: z.array(change),
        right: z.literal("owner").optional(),
      }),
    )
    .catch([]),
  lastCue: saidSchema.optional().catch(undefined),
});

export const withThread = (record: BenchRecord, who: string, thread: Thread): BenchRecord => ({
  ...record,
  threads: { ...record.threads, [who]: thread },
});

export const newRecord = (id: string, zone: string): BenchRecord => ({
  schemaVersion: 1,
  bench: newBench(id, zone),
  threads: {},
  undo: [],
});
