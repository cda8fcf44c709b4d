import { expect, test } from "vitest";
import { phrases } from "../../../test/speech/phrases.ts";
import { busyBench, understand } from "../../../test/support/understand.ts";
import { loadCommands } from "../../commands/registry.ts";
import { emergencies } from "../../data/safety.ts";
import { namesOf } from "../own-names.ts";
import { WAKE_WORD } from "../wake-word.ts";
import { grammarOf } from "./bench-grammar.ts";

const commands = await loadCommands();
const net = grammarOf(commands, namesOf(busyBench.bench), WAKE_WORD);

function accepts(sentence: string): boolean {
  let state: number | undefined = 0;
  for (const word of sentence.split(" ")) {
    state = net.next[state]?.get(word);
    if (state === undefined) return false;
  }
  return net.ends.has(state);
}

test.each(phrases.map(({ said }) => [said]))(
  "%s can be said, with the wake word and without",
  (said) => {
    expect([accepts(said), accepts(`${WAKE_WORD} ${said}`)]).toEqual([true, true]);
  },
);

test.each(emergencies.flatMap(({ words }) => words).map((word) => [word]))(
  "the emergency word %s can be cried out alone",
  (word) => {
    expect(accepts(word)).toBe(true);
  },
);

test.each([
  "i cut my hand",
  "developer on my arm",
  "i feel faint",
  "rotten eggs",
  "the thermometer broke",
  "mercury on the floor",
  "skin",
])("%s can be cried out, and is first aid", (said) => {
  expect(accepts(said)).toBe(true);
  expect(understand(said, commands).command).toBe("emergency");
});

test.each([
  "start developer from cactus",
  "mix a litre of soup",
  "the weather is nice",
  `${WAKE_WORD} ${WAKE_WORD} in`,
  "note the film was wet",
])("%s cannot: no such name, or words nobody has foreseen", (said) => {
  expect(accepts(said)).toBe(false);
});

test("a new bottle can be named, by its own name", () => {
  const { bench } = busyBench;
  const [acorn] = Object.values(bench.bottles);
  const more = {
    ...bench.bottles,
    c: { ...acorn, id: "c", name: "Cactus" },
  } as typeof bench.bottles;
  const grown = grammarOf(commands, namesOf({ ...bench, bottles: more }), WAKE_WORD);
  expect([...grown.next.flatMap((row) => [...row.keys()])]).toContain("cactus");
});

test("the grammar of a bench stays small enough to be followed as it is spoken", () => {
  const arcs = net.next.reduce((sum, row) => sum + row.size, 0);
  expect(arcs).toBeLessThan(95_000);
  expect(net.next.length).toBeLessThan(9000);
});
