import { parse } from "discord-markdown-parser";
import fc from "fast-check";
import { expect, test } from "vitest";
import { createMessage } from "../../../../test/discord/stand-in/limits/message.ts";
import { arbitraryRun } from "../../../../test/support/arbitrary-run.ts";
import { at, benchWith, evening, runOf, stageOf, washOf } from "../../../../test/support/runs.ts";
import { finish, overStage } from "../../../domain/session/advance.ts";
import { decide } from "../../../domain/session/decide.ts";
import { pouredIn } from "../../../domain/session/hear.ts";
import type { Run } from "../../../domain/session/run.ts";
import { layOut } from "../../../domain/timing/stage-clock.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import { planMessage } from "./plan-message.ts";
import { statusMessage } from "./status-message.ts";

const run = runOf([stageOf(), washOf()]);
const context = { bench: benchWith(run), benchKey: "100000000000000001" };
const T = (offset: number): string => `<t:${evening / 1000 + offset}:T>`;
const R = (offset: number): string => `<t:${evening / 1000 + offset}:R>`;
const linesOf = (which: Run, now: Instant): readonly string[] =>
  statusMessage(which, now, { ...context, bench: benchWith(which) }).content.split("\n");

/** The developer takes 195 s with 10 s of pouring out: evening + 30 is the pour, 40 the start. */
test("the plan has every pour and pour-out, for the reader's clock and for the bench's", () => {
  const [message, ...more] = planMessage(run, evening, context);
  expect(more).toEqual([]);
  expect(message?.content.split("\n")).toEqual([
    "**North: test, clock times**",
    `${T(30)} pour developer; pour out ${T(225)}`,
    "-# 19:30:30 pour developer, exactly 3:15; pour out 19:33:45",
    `${T(235)} pour wash; pour out ${T(430)}`,
    "-# 19:33:55 pour wash, at least 3:15; pour out 19:37:10",
    "-# Europe/Lisbon",
  ]);
  // Buttons are of a moment, and the plan of none.
  expect(message?.components).toEqual([]);
});

test("a plan of many baths goes on in a second message and loses none", () => {
  const many = runOf(Array.from({ length: 40 }, (_, index) => stageOf({ bath: `bath ${index}` })));
  const messages = planMessage(many, evening, context);
  expect(messages.length).toBeGreaterThan(1);
  const text = messages.map(({ content }) => content).join("\n");
  for (const clock of layOut(many, evening)) {
    expect(text).toContain(`<t:${Math.floor((clock?.pour ?? 0) / 1000)}:T> pour`);
  }
});

test("before the pour: when it is", () => {
  expect(linesOf(run, at(0))).toEqual([
    "**North: test**",
    `${T(30)} pour developer, ${R(30)}`,
    "after it: wash",
  ]);
});

test("while it is poured: since when, and what is waited for", () => {
  const wet = pouredIn(run, at(42));
  const pouring = { ...wet, stages: wet.stages.map(({ inAt: _, ...stage }) => stage) };
  expect(linesOf(pouring, at(45))).toContain(
    `developer is being poured, since ${T(30)}; say in when it is full.`,
  );
});

test("in a bath: its end in both ways, the next cue, what comes after", () => {
  const wet = pouredIn(run, at(42));
  expect(linesOf(wet, at(100))).toEqual([
    "**North: test**",
    `developer, in since ${T(42)}`,
    `pour out ${T(227)}; over ${T(237)}, ${R(237)}`,
    `next: ${T(102)} agitate 5 seconds.`,
    "after it: wash",
  ]);
});

test("what was only assumed is said, and what is silent", () => {
  const assumed = Object.values(decide(benchWith(run), at(80)).bench.runs)[0];
  expect(assumed && linesOf({ ...assumed, quiet: true }, at(80))).toEqual(
    expect.arrayContaining([
      '-# no "in" heard: counted from the middle of the pour, ±10 s',
      "-# on hold: beats are silent, no clock stops",
    ]),
  );
  expect(linesOf(overStage(assumed ?? run), at(240))).toContain(
    '-# no "out" heard: developer ended by the clock',
  );
});

test("a run that is over says how and when, has no button and makes no sound", () => {
  const message = statusMessage(finish(run, at(500), "done"), at(501), context);
  expect(message.content).toBe(`**North: test**\ndone ${T(500)}. No clock is running.`);
  expect(message.components).toEqual([]);
  expect(message.flags & 4096).toBe(4096);
});

/** What this channel itself writes: a bold title, small print, times. */
const OURS: ReadonlySet<string> = new Set(["text", "br", "newline", "twemoji", "emoticon"]);
const MADE: ReadonlySet<string> = new Set([...OURS, "strong", "subtext", "timestamp"]);

test("any run at any moment makes messages within the limits, plain but for our own signs", () => {
  const strange = fc.oneof(
    fc.string({ unit: "binary", minLength: 1, maxLength: 30 }),
    fc.constantFrom("@everyone", "<@1>", "**x**", "||x||", "# x", "https://a.b/c", "<t:1:R>"),
  );
  const law = fc.property(
    arbitraryRun,
    strange,
    fc.integer({ min: 0, max: 4000 }),
    (any, name, s) => {
      const named: Run = {
        ...any,
        tank: name,
        title: name,
        stages: any.stages.map((stage) => ({ ...stage, bath: name })),
      };
      const bench = benchWith(named);
      const messages = [
        statusMessage(named, at(s), { ...context, bench }),
        ...planMessage(named, at(s), { ...context, bench }),
      ];
      for (const message of messages) {
        expect(createMessage.safeParse(JSON.parse(JSON.stringify(message))).error).toBeUndefined();
        expect(message.components.length).toBeLessThanOrEqual(2);
        const kinds = parse(message.content, "extended").map(({ type }) => type);
        expect(kinds.filter((kind) => !MADE.has(kind))).toEqual([]);
      }
    },
  );
  fc.assert(law, { numRuns: 150, endOnFailure: true });
});
