import { crc32 } from "node:zlib";
import { z } from "zod";
import type { Change } from "../domain/changes.ts";

/**
 * What is written carries a checksum over its own JSON text, so that damage is seen even where the
 * result still reads as JSON.
 */
const checksum = (content: string): string => crc32(content).toString(16).padStart(8, "0");

/** How every sealed text begins. */
export const LINE_OPENING = '{"crc":"';

const sealed = z.looseObject({ crc: z.string() });

function seal(content: Readonly<Record<string, unknown>>): string {
  const text = JSON.stringify(content);
  return `${LINE_OPENING}${checksum(text)}",${text.slice(1)}\n`;
}

/** The content of a sealed text; undefined when it is damaged in any way. */
function unseal(text: string): unknown {
  const opening = /^\{"crc":"([0-9a-f]{8})",/.exec(text);
  if (opening === null || opening[1] !== checksum(`{${text.slice(opening[0].length)}`)) {
    return undefined;
  }
  try {
    const { crc: _, ...content } = sealed.parse(JSON.parse(text));
    return content;
  } catch {
    return undefined;
  }
}

const step = z.union([z.string(), z.int().min(0)]);
const path = z.array(step).readonly();
const change: z.ZodType<Change> = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("set"), path, value: z.unknown() }),
  z.strictObject({ kind: z.literal("drop"), path }),
  z.strictObject({ kind: z.literal("push"), path, items: z.array(z.unknown()).readonly() }),
]);
const line = z.strictObject({ sequence: z.int().min(1), changes: z.array(change).readonly() });
const snapshot = z.strictObject({ sequence: z.int().min(0), record: z.unknown() });
const archived = z.strictObject({ record: z.unknown() });

/** One commit in a journal; `sequence` counts the commits of a bench from 1. */
export type Line = { readonly sequence: number; readonly changes: readonly Change[] };
/** A whole record as it was after commit `sequence`. */
export type Snapshot = { readonly sequence: number; readonly record: unknown };

export const sealLine = (content: Line): string => seal(content);
export const sealSnapshot = (content: Snapshot): string => seal(content);
export const sealArchived = (record: unknown): string => seal({ record });

export const unsealLine = (text: string): Line | undefined => line.safeParse(unseal(text)).data;

const unsealFile = (text: string): unknown => unseal(text.endsWith("\n") ? text.slice(0, -1) : "");

export const unsealSnapshot = (text: string): Snapshot | undefined =>
  snapshot.safeParse(unsealFile(text)).data;
export const unsealArchived = (text: string): { readonly record: unknown } | undefined =>
  archived.safeParse(unsealFile(text)).data as { readonly record: unknown } | undefined;
