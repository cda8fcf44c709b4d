import { expect, test } from "vitest";
import { evening } from "../../../test/support/runs.ts";
import { seeded } from "../../../test/support/seeded.ts";
import { busyBench } from "../../../test/support/understand.ts";
import { listeningOf } from "../../conversation/listening.ts";
import { type ReaderName, readers } from "../../language/readers/all.ts";
import { type Node, parseTemplate } from "../../language/template.ts";
import { toWords } from "../../language/words.ts";
import { spokenSlots } from "./spoken-slots.ts";

const listening = listeningOf(busyBench.bench, evening);
const table = spokenSlots as Readonly<Record<string, string>>;

/** One way through a spoken slot, by chance. */
function say(node: Node, chance: () => number): string[] {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(chance() * list.length)] as T;
  switch (node.kind) {
    case "word":
      return [node.word];
    case "slot":
      return say(parseTemplate(table[node.slot] ?? "").node, chance);
    case "maybe":
      return chance() < 0.5 ? [] : say(node.node, chance);
    case "choice":
      return say(pick(node.nodes), chance);
    case "sequence":
    case "anyOrder":
      return node.nodes.flatMap((part) => say(part, chance));
  }
}

const spoken = Object.keys(table).filter((name): name is ReaderName =>
  Object.hasOwn(readers, name),
);

test.each(spoken)("whatever is said for {%s} is read by its reader", (name) => {
  const chance = seeded(7);
  for (let round = 0; round < 200; round += 1) {
    const said = say(parseTemplate(table[name] ?? "").node, chance).join(" ");
    const { words } = toWords(said);
    const whole = readers[name](words, 0, listening).some(({ next }) => next === words.length);
    expect(whole, said).toBe(true);
  }
});
