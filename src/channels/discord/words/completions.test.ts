import fc from "fast-check";
import { expect, test } from "vitest";
import { benchWith, evening, runOf, stageOf } from "../../../../test/support/runs.ts";
import { busyBench } from "../../../../test/support/understand.ts";
import { loadCommands } from "../../../commands/registry.ts";
import { listeningOf } from "../../../conversation/listening.ts";
import { type BenchRecord, newRecord } from "../../../conversation/record.ts";
import { turn } from "../../../conversation/turn.ts";
import { later } from "../../../domain/units/quantity.ts";
import { completions } from "./completions.ts";
import { readInteraction } from "./read-interaction.ts";
import { slashFields } from "./slash-fields.ts";
import { placeOf } from "./slash-layout.ts";

const commands = await loadCommands();

/** A bench with film, a thermometer, a tank, a reminder and an open run beside its bottles. */
const { bench } = [
  "add two rolls of 120 C-41 called harbour",
  "the red thermometer reads 38.4 where the reference reads 38.0",
  "tank south has two 35 mm reels of 300 ml each",
  "remind me friday 8pm to order fixer",
].reduce<BenchRecord>(
  (record, text, index) =>
    turn(record, { who: "Ines", text }, later(evening, index), commands).record,
  busyBench,
);

const offered = (command: string, option: string, typed: string): readonly string[] => {
  const found = commands.find(({ name }) => name === command);
  return found === undefined
    ? []
    : completions(bench, found, option, typed, commands).map(({ name }) => name);
};

test.each([
  ["retire", "bottle", "ac", ["Acorn: developer, the square"]],
  ["retire", "bottle", "akorn", ["Acorn: developer, the square"]],
  ["retire", "bottle", "blix", ["Banjo: blix, the square"]],
  ["out", "tank", "nor", ["North: test"]],
  ["tank movement", "tank", "sou", ["South"]],
  ["use sheet", "sheet", "gard", ["garden"]],
  ["mark", "rolls", "harb", ["roll 1, harbour 1, 120, C-41", "roll 2, harbour 2, 120, C-41"]],
  ["temperature", "thermometer", "re", ["red"]],
  ["snooze", "which", "fix", ["order fixer"]],
  ["formula", "formula", "d-7", ["D-76"]],
  ["help", "what", "temper", ["temperature"]],
])("%s, %s %j", (command, option, typed, names) => {
  const found = offered(command, option, typed);
  expect(found.slice(0, names.length)).toEqual(names);
});

test("what is no name of the bench has no choices, and a number has none", () => {
  expect(offered("retire", "bottle", "zebra")).toEqual([]);
  expect(offered("mix", "total", "5")).toEqual([]);
  expect(offered("mix", "no such option", "5")).toEqual([]);
});

/** What is offered must be taken: each choice of each option is read without a complaint. */
test.each(
  commands.flatMap((command) =>
    slashFields(command).map(({ option }) => ({ name: command.name, option, command })),
  ),
)("$name, $option: every choice offered can be read", ({ command, option }) => {
  const place = placeOf(commands, command.name);
  if (place === undefined) throw new Error(`no place for ${command.name}`);
  for (const { value } of completions(bench, command, option, "", commands)) {
    const inner = [{ name: option, value }];
    const data =
      place.sub === undefined
        ? { name: place.name, options: inner }
        : { name: place.name, options: [{ name: place.sub, options: inner }] };
    const read = readInteraction(data, commands, listeningOf(bench, evening));
    expect(read, `${option} ${value}`).toHaveProperty("command");
  }
});

test("a full shelf offers 25 at most, whatever it is called", () => {
  const names = fc.array(fc.string({ unit: "binary", maxLength: 150 }), { maxLength: 60 });
  const bottles = commands.find(({ name }) => name === "retire");
  const first = Object.values(busyBench.bench.bottles)[0];
  if (bottles === undefined || first === undefined) throw new Error("no bottle to copy");
  const law = fc.property(names, fc.string({ unit: "binary", maxLength: 30 }), (all, typed) => {
    const shelf = Object.fromEntries(
      all.map((name, index) => [`b${index}`, { ...first, id: `b${index}`, name }]),
    );
    const found = completions({ ...bench, bottles: shelf }, bottles, "bottle", typed);
    expect(found.length).toBeLessThanOrEqual(25);
    for (const { name, value } of found) {
      expect(name.length).toBeGreaterThan(0);
      expect(name.length).toBeLessThanOrEqual(100);
      expect(value.length).toBeLessThanOrEqual(100);
    }
  });
  fc.assert(law, { numRuns: 100 });
});

test("a bench with nothing on it offers nothing of its own", () => {
  const empty = newRecord("empty", "UTC").bench;
  const retire = commands.find(({ name }) => name === "retire");
  const out = commands.find(({ name }) => name === "out");
  if (retire === undefined || out === undefined) throw new Error("commands are missing");
  expect(completions(empty, retire, "bottle", "")).toEqual([]);
  expect(completions(benchWith(runOf([stageOf()])), out, "tank", "")).toHaveLength(1);
});
