import { apply } from "../domain/changes.ts";
import { LINE_OPENING, type Line, type Snapshot, unsealLine } from "./seal.ts";

/** A journal file as found. */
export type Journal = { readonly name: string; readonly text: string };

/** Where a journal stops making sense; `line` counts from 1, `after` lines follow it. */
export type Fault =
  | { readonly kind: "torn"; readonly name: string }
  | {
      readonly kind: "damaged";
      readonly name: string;
      readonly line: number;
      readonly after: number;
    };

export type Replayed = Snapshot & { readonly faults: readonly Fault[] };

/** A line believed so far, with its place in case it does not fit the record after all. */
type Kept = { readonly line: Line; readonly fault: Fault };

/**
 * Makes the commits of consecutive journals again on the snapshot they follow.
 *
 * A journal is believed up to its first line that is damaged or out of order. A later journal goes
 * on where its first line says: lines before it from that number on were never confirmed and are
 * dropped, and a fault before it has cost nothing. A first line that holds the whole record needs
 * nothing before it. The beginning of a line at the very end is a commit that was being written
 * when the power went: "torn".
 */
export function replay(base: Snapshot, journals: readonly Journal[]): Replayed {
  let kept: Kept[] = [];
  let faults: Fault[] = [];
  for (const journal of journals) {
    const { lines, fault } = readLines(journal);
    const first = lines[0]?.line;
    const last = kept.at(-1)?.line.sequence ?? base.sequence;
    if (first === undefined) {
      if (fault !== undefined) faults.push(fault);
    } else if (first.sequence > base.sequence && (first.sequence <= last + 1 || isWhole(first))) {
      const before = isWhole(first) ? [] : kept;
      kept = [...before.filter(({ line }) => line.sequence < first.sequence), ...lines];
      faults = fault === undefined ? [] : [fault];
    } else {
      faults.push({ kind: "damaged", name: journal.name, line: 1, after: lines.length - 1 });
    }
  }
  return perform(base, kept, faults);
}

const isWhole = ({ changes: [change, ...more] }: Line): boolean =>
  change?.kind === "set" && change.path.length === 0 && more.length === 0;

/** The lines of one journal up to its first fault. */
function readLines({ name, text }: Journal): { lines: Kept[]; fault: Fault | undefined } {
  const pieces = text.split("\n");
  const tail = pieces.pop() ?? "";
  const lines: Kept[] = [];
  for (const [index, piece] of pieces.entries()) {
    const line = unsealLine(piece);
    const before = lines.at(-1)?.line.sequence;
    const fault: Fault = {
      kind: "damaged",
      name,
      line: index + 1,
      after: pieces.length - index - 1,
    };
    if (line === undefined || (before !== undefined && line.sequence !== before + 1)) {
      return { lines, fault };
    }
    lines.push({ line, fault });
  }
  if (tail === "") return { lines, fault: undefined };
  const begun = LINE_OPENING.startsWith(tail.slice(0, LINE_OPENING.length));
  const fault: Fault = begun
    ? { kind: "torn", name }
    : { kind: "damaged", name, line: pieces.length + 1, after: 0 };
  return { lines, fault };
}

function perform(base: Snapshot, kept: readonly Kept[], faults: readonly Fault[]): Replayed {
  let { sequence, record } = base;
  for (const { line, fault } of kept) {
    try {
      record = apply(record, line.changes);
    } catch {
      return { sequence, record, faults: [fault] };
    }
    sequence = line.sequence;
  }
  return { sequence, record, faults };
}
