import fc from "fast-check";
import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { stageFaults } from "../../src/domain/log/stage-faults.ts";
import { stageRecords } from "../../src/domain/session/summary.ts";
import { type Reply, valuesOf } from "../../src/reply/reply.ts";
import { arbitrarySession } from "../support/arbitrary-session.ts";
import { evening } from "../support/runs.ts";
import { seasonOf } from "../support/season.ts";

const commands = await loadCommands();

/** INVENTED, and counted by hand below. The bottle Acorn was mixed by Dora, Cedar by Ines. */
const { bench, past } = seasonOf([
  { on: "2025-10-12T20:00", read: [38.2, 37.6], thermometer: "red", push: 2 },
  { on: "2025-12-31T23:30", by: "Bruno", read: [38, 37.8], off: { 2: -40 } },
  { on: "2026-03-29T00:30", by: "Dora", tank: "South", bottle: "cedar", push: 1 },
  { on: "2026-10-01T00:10", process: "E-6", film: [{ format: "135-36", count: 2 }] },
  { on: "2026-10-20T19:00", by: "Ana Maria", bottle: "acorn", push: 2, read: [38.1, 37.4] },
  { on: "2026-10-25T19:00", skipped: true, film: [{ format: "120", count: 2 }] },
  { on: "2026-10-31T23:59", off: { 0: 20, 2: -60 }, read: [38.1, 38.1] },
  { on: "2026-11-01T10:00", nothingIn: true, push: 2 },
  { on: "2026-11-03T20:00", tank: "South", push: -1, read: [39, 38.8] },
  { on: "2026-11-20T20:00", rehearsal: { speed: 5 }, push: 2 },
]);

function ask(text: string): { readonly reply: Reply; readonly runs: readonly string[] } {
  const record = { ...newRecord("test", bench.zone), bench };
  const { reply } = turn(record, { text, who: "Ines" }, evening, commands, past);
  const { runs = [] } = valuesOf(reply);
  return { reply, runs: (runs as { run: string }[]).map(({ run }) => run.replace("run-", "")) };
}

test.each([
  ["all runs", "9 7 6 5 4 3 2 1"],
  ["runs in october", "7 6 5 4"],
  ["runs in october 2025", "1"],
  ["runs in 2025", "2 1"],
  ["runs since 25 october", "9 7 6"],
  ["runs before 2026", "2 1"],
  ["runs between december 2025 and march 2026", "3 2"],
  ["runs on 31 october", "7"],
  ["runs pushed two stops", "5 1"],
  ["runs that were pushed", "5 3 1"],
  ["runs pulled one stop", "9"],
  ["runs without push", "7 6 4 2"],
  ["runs of 120", "9 7 6 5 3 2 1"],
  ["runs with two rolls of 120", "6"],
  ["runs of 135", "4"],
  ["E-6 runs", "4"],
  ["runs with Bruno", "2"],
  ["runs with Ana Maria", "5"],
  // She poured the third and mixed the bottle of the fifth.
  ["all runs with Dora", "5 3"],
  ["runs with Acorn", "5"],
  ["runs with Cedar", "3"],
  ["runs in tank South", "9 3"],
  ["runs with the red thermometer", "1"],
  ["runs where the wash was short", "7 2"],
  ["runs where the wash was skipped", "6"],
  ["runs with a cold developer", "5 1"],
  ["runs with a warm developer", "9"],
  ["runs where the developer ran long", "7"],
  ["runs without deviations", "4 3"],
  ["runs with Dora pushed two stops in october", "5"],
  ["runs of 120 in october without a push", "7 6"],
  ["all rehearsals", "10"],
  ["runs in 2024", ""],
])("%s: %s", (said, expected) => {
  expect(ask(said).runs.join(" ")).toBe(expected);
});

test("the last time is told with its date, how long ago, and what was odd", () => {
  const { reply } = ask("last time I pushed two stops");
  expect(reply.title).toBe("Last time pushed 2 stops: 20 October 2026, 39 days ago");
  expect(reply.facts).toMatchObject({ count: 2, of: 8, date: "2026-10-20", days: 39 });
  expect(reply.lines.join("\n")).toContain("37.4 °C, 0.6 °C below 38 °C");
  expect(ask("last time I pushed three stops").reply.title).toContain("Never");
});

test("how often is out of the runs that could have", () => {
  expect(ask("how often did the wash run short").reply.facts).toMatchObject({ count: 2, of: 8 });
  const october = ask("how often did the wash run short in october 2026").reply;
  expect(october.facts).toMatchObject({ count: 1, of: 4 });
  expect(ask("how often did I push two stops").reply.facts).toMatchObject({ count: 2, of: 8 });
  expect(ask("how often did I use Acorn").reply.facts).toMatchObject({ count: 1, of: 8 });
});

test("the usual is the median, with its range and the number of runs", () => {
  // At the end: 37.6, 37.8, 37.4, 38.1, 38.8.
  const { figures, facts } = ask("what temperature do I usually end at").reply;
  expect([figures.temp_c?.value, figures.least?.value, figures.most?.value]).toEqual([
    37.8, 37.4, 38.8,
  ]);
  expect(facts).toMatchObject({ count: 5, of: 8, unverified: 4 });
  const pushed = ask("what temperature do I usually end at pushed two stops").reply;
  expect(pushed.figures.temp_c?.value).toBeCloseTo(37.5, 9);
  // Washes heard from full to out: six of 195 s, one each of 155 s and 135 s, one skipped.
  const wash = ask("how long do I usually wash").reply;
  expect([wash.figures.time_s?.value, wash.figures.least?.value]).toEqual([195, 135]);
  expect(wash.facts.count).toBe(7);
});

test("a run is shown by number and by date, and a date of none is said", () => {
  expect(ask("show run 2").reply.title).toContain("summary");
  expect(ask("the run of 20 october").reply.facts.run).toBe("run-5");
  expect(ask("the run of 21 october").reply.facts.reason).toBe("no-run");
  expect(ask("show run 77").reply.facts.reason).toBe("no-run");
  expect(ask("runs with Zelda").reply.facts.reason).toBe("no-such-name");
});

test("a bath deviates in a search exactly when its summary says so", () => {
  const agree = fc.property(arbitrarySession, ({ run }) => {
    const found = new Set(stageFaults(run).map(({ bath }) => bath));
    const said = new Set(
      stageRecords(run).flatMap(({ bath, deviations }) => (deviations.length > 0 ? [bath] : [])),
    );
    expect(found).toEqual(said);
  });
  fc.assert(agree, { numRuns: 300 });
});
