import fc from "fast-check";
import { type BenchRecord, newRecord } from "../../src/conversation/record.ts";
import type { Run } from "../../src/domain/session/run.ts";
import { touchedBy } from "../../src/domain/session/touched.ts";
import { answer } from "../../src/reply/reply.ts";
import { arbitrarySession } from "./arbitrary-session.ts";
import { evening } from "./runs.ts";
import { smallPng, smallSvg } from "./small-picture.ts";

/** A record, the runs of it that stand in files, and pictures by name. */
export type Stocked = {
  readonly record: BenchRecord;
  readonly archived: readonly Run[];
  readonly pictures: ReadonlyMap<string, Uint8Array>;
};

/** As it comes back from a disk: without keys that hold nothing. */
const plain = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

/** INVENTED: benches of several sessions, some at hand and some moved to files of their own. */
export const arbitraryStock: fc.Arbitrary<Stocked> = fc
  .record({
    sessions: fc.array(arbitrarySession, { minLength: 1, maxLength: 6 }),
    here: fc.nat(3),
    picture: fc.uint8Array({ minLength: 1, maxLength: 200 }),
    notes: fc.array(fc.string({ unit: "grapheme", maxLength: 40 }), { maxLength: 3 }),
  })
  .map(({ sessions, here, picture, notes }) => {
    const runs = sessions.map(({ run }, n): Run => ({ ...run, id: `run-${n + 1}` }));
    const atHand = runs.slice(0, here);
    const archived = runs.slice(here);
    const fresh = newRecord("home", "Europe/Lisbon");
    const reply = answer({ title: "Noted: ok", say: "Noted." });
    const record: BenchRecord = {
      ...fresh,
      bench: {
        ...fresh.bench,
        nextId: runs.length + 1,
        bottles: Object.assign({}, ...sessions.map(({ bench }) => bench.bottles)),
        rolls: Object.assign({}, ...sessions.map(({ bench }) => bench.rolls)),
        runs: Object.fromEntries(atHand.map((run) => [run.id, run])),
        pastRuns: archived.map((run) => {
          const { id, title, tank, plannedAt } = run;
          return { id, title, tank, plannedAt, touched: touchedBy(run) };
        }),
        notes: notes.map((text) => ({ at: evening, by: "Ines", text: text.toWellFormed() })),
      },
      threads: { Ines: { last: { reply, at: evening } } },
      undo: [{ label: "x", at: evening, changes: [{ kind: "drop", path: ["bench"] }] }],
    };
    return {
      record: plain(record),
      archived: plain(archived),
      pictures: new Map([
        ["run-1.png", new Uint8Array(smallPng(picture))],
        ["run-1-phone.svg", new Uint8Array(smallSvg(`${picture.length}`))],
      ]),
    };
  });
