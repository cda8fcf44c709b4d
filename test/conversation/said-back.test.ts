import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { decide } from "../../src/domain/session/decide.ts";
import { type Instant, instant, later } from "../../src/domain/units/quantity.ts";

const commands = await loadCommands();
const noon = instant(Date.parse("2026-11-28T12:00:00Z"));

/** A run planned at noon and poured from 12:00:05 on; a developer of three minutes where not said. */
function bench(...lines: readonly string[]) {
  let record = newRecord("t", "UTC");
  const say = (text: string, at: Instant, saidAt?: Instant) => {
    const message = { text, who: "Ana", standing: "member", saidAt } as const;
    const taken = turn(record, message, at, commands);
    record = taken.record;
    return taken.reply;
  };
  /** Lets the time come; which cues are told. */
  const tick = (at: Instant): readonly string[] => {
    const decided = decide(record.bench, at);
    record = { ...record, bench: decided.bench };
    return decided.happenings.flatMap(({ event }) =>
      event.kind === "cues" ? event.cues.map(({ kind }) => kind) : [event.kind],
    );
  };
  for (const line of lines.length === 0 ? ["start developer for 3 minutes tank north"] : lines) {
    say(line, noon);
  }
  say("ready", later(noon, 5));
  return { say, tick, run: () => Object.values(record.bench.runs)[0] };
}

test("an in that was said back counts from when it was said, and no cue comes early by it", () => {
  const { say, run } = bench();
  const reply = say("in", later(noon, 16), later(noon, 10));
  expect(reply.title).toContain("in at 12:00:10");
  expect(reply.lines.join(" ")).toContain("over at 12:03:10");
  expect(run()?.stages[0]?.inAt).toBe(later(noon, 10));
  // Everything up to the yes has been told.
  expect(run()?.cuedUntil).toBeGreaterThanOrEqual(later(noon, 16));
});

test("one that nobody said back counts from now", () => {
  const { say } = bench();
  expect(say("in", later(noon, 16)).title).toContain("in at 12:00:16");
});

test("a late one that is asked about as well still counts from when it was said", () => {
  const { say, tick, run } = bench();
  // Nobody spoke: the clock has counted from the middle of the pour window.
  tick(later(noon, 60));
  const asked = say("in", later(noon, 66), later(noon, 60));
  expect(asked.title).toContain("Count from now instead?");
  say("yes", later(noon, 70));
  expect(run()?.stages[0]?.inAt).toBe(later(noon, 60));
});

test("a word that was said while the bath before was in begins this one no sooner than that was out", () => {
  const { say, tick, run } = bench("use the demo", "start saltmarsh demo tank north");
  say("in", later(noon, 10));
  const over = later(noon, 10 + 205);
  // Film leaves the developer by the clock.
  tick(later(over, 2));
  say("in", later(over, 6), later(over, -3));
  const [developer, blix] = run()?.stages ?? [];
  expect(developer?.outAt).toBe(over);
  expect(blix?.inAt).toBe(over);
});

test("a pouring out that fell due between the word and the yes is told, late", () => {
  const { say, tick, run } = bench("start developer for 16 seconds tank north");
  say("in", later(noon, 24), later(noon, 14));
  expect(run()?.stages[0]?.inAt).toBe(later(noon, 14));
  expect(tick(later(noon, 25))).toContain("pour-out");
});
