import { z } from "zod";
import { StoreError } from "../store-error.ts";

/** Turns a record of one version into the next; the version number itself is set by `migrate`. */
export type Migration = (record: Readonly<Record<string, unknown>>) => Record<string, unknown>;

export type Migrated = { readonly record: unknown; readonly from: number; readonly to: number };

/**
 * In order: the first leads from version 1 to 2. Each step gets a file of its own beside this one,
 * named by the version it leads to, and never changes once it has been released.
 */
const migrations: readonly Migration[] = [];

const versioned = z.looseObject({ schemaVersion: z.int().min(1) });

/** Brings a stored record to the version this program writes. */
export function migrate(record: unknown, steps: readonly Migration[] = migrations): Migrated {
  const parsed = versioned.safeParse(record);
  if (!parsed.success) {
    throw new StoreError("unreadable", "It holds no record of a bench: its version is missing.");
  }
  const from = parsed.data.schemaVersion;
  const to = steps.length + 1;
  if (from > to) {
    throw new StoreError(
      "newer-version",
      `It was written by a newer Wetside (version ${from} of the records; I know up to ${to}). Start that newer one, or put back a backup made before it.`,
    );
  }
  let current: Record<string, unknown> = parsed.data;
  for (let version = from; version < to; version += 1) {
    const step = steps[version - 1];
    if (step !== undefined) current = { ...step(current), schemaVersion: version + 1 };
  }
  return { record: from === to ? record : current, from, to };
}
