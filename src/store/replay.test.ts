import { expect, test } from "vitest";
import type { Change } from "../domain/changes.ts";
import { type Fault, replay } from "./replay.ts";
import { sealLine } from "./seal.ts";

const add = (sequence: number): string =>
  sealLine({ sequence, changes: [{ kind: "push", path: [], items: [sequence] }] });
const whole = (sequence: number, value: readonly number[]): string =>
  sealLine({ sequence, changes: [{ kind: "set", path: [], value }] });
const misfit: Change = { kind: "drop", path: ["a"] };

type Case = {
  what: string;
  journals: readonly string[];
  record: readonly number[];
  faults?: readonly Partial<Fault>[];
  base?: unknown;
};

test.each<Case>([
  { what: "nothing", journals: [""], record: [0] },
  { what: "lines in order", journals: [add(1) + add(2)], record: [0, 1, 2] },
  { what: "journals in order", journals: [add(1), "", add(2) + add(3)], record: [0, 1, 2, 3] },
  {
    what: "a later journal that begins again at a number that was never confirmed",
    journals: [add(1) + add(2) + add(3), whole(2, [7]) + add(3)],
    record: [7, 3],
  },
  {
    what: "a whole record after a gap",
    journals: [add(1), whole(9, [7]) + add(10)],
    record: [7, 10],
  },
  {
    what: "a whole record after lines that have nothing to stand on",
    journals: [add(1), whole(2, [7])],
    record: [7],
    base: undefined,
  },
  {
    what: "a torn end",
    journals: [`${add(1)}${add(2).slice(0, 20)}`],
    record: [0, 1],
    faults: [{ kind: "torn", name: "journal 1" }],
  },
  {
    what: "a torn end that a later journal goes on from",
    journals: [`${add(1)}${add(2).slice(0, 20)}`, add(2)],
    record: [0, 1, 2],
  },
  {
    what: "zeros at the end",
    journals: [`${add(1)}\0\0\0`],
    record: [0, 1],
    faults: [{ kind: "damaged", name: "journal 1", line: 2, after: 0 }],
  },
  {
    what: "a damaged line",
    journals: [`${add(1)}x${add(2)}${add(3)}`],
    record: [0, 1],
    faults: [{ kind: "damaged", name: "journal 1", line: 2, after: 1 }],
  },
  {
    what: "a line twice",
    journals: [add(1) + add(1)],
    record: [0, 1],
    faults: [{ kind: "damaged", name: "journal 1", line: 2, after: 0 }],
  },
  {
    what: "a gap between journals",
    journals: [add(1), add(3) + add(4)],
    record: [0, 1],
    faults: [{ kind: "damaged", name: "journal 2", line: 1, after: 1 }],
  },
  {
    what: "a change that does not fit",
    journals: [add(1) + sealLine({ sequence: 2, changes: [misfit] }) + add(3)],
    record: [0, 1],
    faults: [{ kind: "damaged", name: "journal 1", line: 2, after: 1 }],
  },
])("$what", ({ journals, record, faults = [], ...rest }) => {
  const base = { sequence: 0, record: "base" in rest ? rest.base : [0] };
  const named = journals.map((text, at) => ({ name: `journal ${at + 1}`, text }));
  const replayed = replay(base, named);
  expect(replayed.record).toEqual(record);
  expect(replayed.faults).toEqual(faults);
});
