import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { type BenchRecord, newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { evening } from "../support/runs.ts";
import { busyBench } from "../support/understand.ts";

const commands = await loadCommands();
const freshBench = newRecord("fresh", "Europe/Lisbon");

const hear = (text: string, record: BenchRecord) =>
  turn(record, { text, who: "Ines", standing: "owner" }, evening, commands);

/** Refused or asked about in one breath, with nothing stored, on a fresh bench and on a busy one. */
function declined(text: string): readonly { readonly title: string; readonly reason: unknown }[] {
  return [freshBench, busyBench].map((before) => {
    const { record, reply } = hear(text, before);
    expect(record.bench).toBe(before.bench);
    expect(record.undo).toBe(before.undo);
    expect(["refusal", "question"]).toContain(reply.kind);
    const said = reply.say.split(/\s+/).filter((word) => word !== "");
    expect(said.length).toBeGreaterThan(0);
    expect(said.length).toBeLessThanOrEqual(12);
    const words = [reply.title, reply.say, ...reply.lines].join(" ");
    expect(words).not.toMatch(/undefined|NaN|Infinity|\[object|Error:|\bat .*\.ts:\d/);
    if (reply.kind === "refusal") expect(reply.facts.reason).toMatch(/^[a-z]+(-[a-z]+)*$/);
    else expect(reply.title).toMatch(/\?/);
    return { title: reply.title, reason: reply.facts.reason };
  });
}

test.each([
  { what: "nothing", text: "", reason: "empty" },
  { what: "spaces", text: "     ", reason: "empty" },
  { what: "a tab and line ends", text: "\t\r\n\n", reason: "empty" },
  { what: "control characters", text: "\u0000\u0001\u0007\u001b", reason: "empty" },
  { what: "half a surrogate pair", text: "\ud800", reason: "empty" },
  { what: "two halves in the wrong order", text: "\udc00\ud800", reason: "empty" },
  { what: "marks for writing to the left", text: "\u202e\u200f\u2066", reason: "empty" },
  { what: "letters of no width", text: "\u200b\ufeff\u2060", reason: "empty" },
  { what: "brackets", text: "[[[}}}", reason: "empty" },
  { what: "10,000 letters", text: "x".repeat(10_000), reason: "too-long" },
  { what: "10,000 characters of words", text: "mix ".repeat(2500), reason: "too-long" },
  { what: "10,000 lone halves", text: "\ud800".repeat(10_000), reason: "too-long" },
  { what: "another script", text: "שלום", reason: "not-understood" },
  { what: "pictures", text: "🎞️🎞️", reason: "not-understood" },
  { what: "markup", text: "<script>alert(1)</script>", reason: "not-understood" },
  { what: "a name every object has", text: "constructor", reason: "not-understood" },
  { what: "another", text: "__proto__", reason: "not-understood" },
  { what: "a thousand letters", text: "x".repeat(1000), reason: "not-understood" },
])("$what: $reason", ({ text, reason }) => {
  for (const one of declined(text)) expect(one.reason).toBe(reason);
});

test.each([
  ["start developer for -3 minutes", /more than 10 seconds/],
  ["start developer for 0 minutes", /more than 10 seconds/],
  ["start developer for 10 seconds", /more than 10 seconds/],
  ["start developer for 400 hours", /day/],
  ["start developer for 1e309 minutes", /"1e309 minutes"/],
  ["start developer for 3:75", /"3:75"/],
  ["start developer at 300 C", /between 0 and 60 °C/],
  ["start developer at -40 C", /between 0 and 60 °C/],
  ["start developer at nan c", /"nan c"/],
  ["start developer minus two rolls", /at least one roll/],
  ["start developer zero rolls", /at least one roll/],
  ["start developer half a roll", /whole number of rolls/],
  ["start developer 1000 rolls", /40 rolls/],
  [`start developer tank ${"n".repeat(60)}`, /one or two words/],
  ["mix 10,000 litres of developer", /200 litres/],
  ["mix 0 ml of blix", /above zero/],
  ["mix -1 litre of developer", /above zero/],
  ["mix 1e309 ml of developer", /"1e309 ml"/],
  ["mix infinity litres of blix", /"infinity litres"/],
  ["bottle developer NaN", /"nan"/],
  ["bottle developer 0 ml mixed today", /volume, like 1 litre/],
  ["bottle developer 10,000 litres mixed today", /volume, like 1 litre/],
  ["bottle developer 1 litre mixed 31 february", /"31 february"/],
  ["bottle developer 1 litre mixed 9999999999 days ago", /"9999999999 days ago"/],
  ["bottle developer 1 litre mixed 1 january 1900", /1 January 1900/],
  ["bottle developer 1 litre mixed today with -3 rolls", /below zero/],
  ["bottle developer 1 litre called cola mixed today", /drink/],
  ["bottle wash 1 litre mixed today", /Water needs no bottle/],
  ["temperature 300 C", /hotter than boiling/],
  ["temperature 1e309", /"1e309"/],
  ["temperature -40 C", /cold/],
  ["set zone Mars/Olympus", /"Mars\/Olympus"/],
  ["set lead -1 minute", /between 0 seconds and 1 hour/],
  ["set lead 10 hours", /between 0 seconds and 1 hour/],
  ["set pour window 0 seconds", /between 4 seconds/],
  ["dilute 0 ml 1+9", /0 mL/],
  ["dilute 1e309 ml 1+9", /"1e309 ml"/],
  ["10 percent solution, 0 ml", /0 mL/],
  ["-5 percent solution, 250 ml", /-5 %/],
  ["1 litre at 80 c from 60 c and 15 c", /80 °C/],
  ["mix 20 % with 5 % to get 50 %", /50 %/],
  [`note ${"x".repeat(600)}`, /500 characters/],
  ["change 0 to 5", /line/i],
  ["skip the reversal", /No (run|reversal)/],
])("%s: says what was read or what to give", (text, says) => {
  for (const { title } of declined(text)) expect(title).toMatch(says);
});

test("a name that sounds like one on the shelf is refused where that one stands", () => {
  const { record, reply } = hear("bottle fixer 1 litre called Akorn mixed today", busyBench);
  expect(reply.title).toContain("Acorn");
  expect(record.bench).toBe(busyBench.bench);
});

test("invisible letters between the words change nothing", () => {
  const plain = hear("start developer", freshBench);
  for (const text of ["start\u0000developer", "st\u200bart developer", "start \ud800 developer"]) {
    expect(hear(text, freshBench)).toEqual(plain);
  }
});

test("a bad answer leaves its question open, and the bench as it was", () => {
  const asked = hear("mix developer", freshBench).record;
  expect(asked.threads.Ines?.pending).toBeDefined();
  for (const text of ["", "\u0000", "x".repeat(10_000), "purple", "\ud800"]) {
    const { record, reply } = hear(text, asked);
    expect(record.bench).toBe(freshBench.bench);
    expect(record.threads.Ines?.pending?.ask).toEqual(asked.threads.Ines?.pending?.ask);
    expect(["refusal", "question"]).toContain(reply.kind);
  }
});

test("no answer to a question of a sheet makes it throw or stores nonsense", () => {
  let record = hear("learn a sheet", freshBench).record;
  for (const text of ["", "\ud800", "x".repeat(900), "1e309", "NaN", "\u202e", "[[["]) {
    const heard = hear(text, record);
    expect(["refusal", "question"]).toContain(heard.reply.kind);
    record = heard.record;
  }
  expect(Object.keys(record.bench.sheets)).toEqual([]);
});
