import type { Command } from "../../commands/define-command.ts";
import { emergencies } from "../../data/safety.ts";
import { type ReaderName, readers } from "../../language/readers/all.ts";
import { type Node, parseTemplate } from "../../language/template.ts";
import { howUsual } from "./how-usual.ts";
import { type LaySlot, NetBuilder } from "./net-builder.ts";
import { type OwnNames, spokenName } from "./own-names.ts";
import { speakable } from "./speakable.ts";
import { spokenSlots } from "./spoken-slots.ts";
import { compact, type PlainNet } from "./word-net.ts";

const readerNames = new Map(
  Object.entries(readers).map(([name, read]) => [read, name as ReaderName] as const),
);

/** The words that stand in a slot: the bench's names, or the table's. */
type Spoken = (slot: string, reader: ReaderName | undefined) => Node | undefined;

function spokenBy(names: OwnNames): Spoken {
  const made = new Map<string, Node | undefined>();
  return (slot, reader) => {
    const key = `${slot} ${reader}`;
    if (!made.has(key)) {
      const text = spokenName(slot, reader, names) ?? spokenSlots[reader ?? "digit"];
      made.set(key, text === undefined ? undefined : parseTemplate(text).node);
    }
    return made.get(key);
  };
}

const emergencyWords = `(${emergencies.flatMap(({ words }) => words).join("|")})`;
const firstAidWord = parseTemplate(emergencyWords).node;
/** What they tell of it in more words; more ways would make the grammar too large to be followed. */
const firstAidTold = parseTemplate(
  `(${emergencies.flatMap(({ alone }) => alone).join("|")}|i cut my (hand|finger)|i am bleeding|i feel (sick|faint)|it smells (bad|like gas)|rotten eggs|[i got] (developer|bleach|blix|fixer|it) on my (skin|hand|hands|arm|face)|i (broke|dropped) the thermometer|the thermometer (broke|is broken)|mercury on the floor)`,
).node;
/** What people cry out with them. */
const firstAid = parseTemplate(
  `[help] [it is|something is|i have|i got|he|she|someone|i|we] [can not|has|got] [it] [in] [my|his|her|the] ${emergencyWords} [(my|his|her) (hand|arm|finger|face)|it|some]`,
).node;

/** What answers a question of the bench and is no sentence of its own: short, and seldom said. */
const answerSlots = [
  ...(["film", "many", "volume", "reading", "duration"] as const),
  ...(["bottle", "solution", "newTank", "sheet", "mixedDate"] as const),
];
const answerWords = parseTemplate("(one|keep|adjust|nothing)").node;
const ANSWER = 0.003;

/** "The" may stand before a name, though no template says so. */
function withArticle(builder: NetBuilder, reader: ReaderName | undefined, from: number): number {
  if (reader === undefined || !named.has(reader)) return from;
  const to = builder.state();
  builder.arc(from, to);
  builder.arc(from, to, "the");
  return to;
}
const named: ReadonlySet<ReaderName> = new Set(["solution", "bath", "bottle", "tank", "sheet"]);

/**
 * Everything that can be said to a bench, as one net: each command's templates with their slots
 * spelt out, with or without the wake word in front. Exact but for the order of loose parts; the
 * parser reads what comes out of it.
 */
export function grammarOf(commands: readonly Command[], names: OwnNames, wake: string): PlainNet {
  const builder = new NetBuilder();
  const spoken = spokenBy(names);
  const begun = builder.state();
  const called = builder.state();
  builder.arc(0, begun);
  builder.arc(0, called, wake);
  builder.arc(called, begun);
  builder.end(called, 1);

  /** What stands in a slot, worked out once: its own slots are other parts of the table, or names. */
  const made = new Map<Node, PlainNet>();
  const netOf = (node: Node): PlainNet => {
    const known = made.get(node);
    if (known !== undefined) return known;
    const inner = new NetBuilder();
    inner.end(inner.lay(node, 0, part(inner)), 1);
    const net = compact(inner.net());
    made.set(node, net);
    return net;
  };
  const part =
    (into: NetBuilder): LaySlot =>
    (name, from) => {
      const node = spoken(name, name as ReaderName);
      if (node === undefined) throw new Error(`{${name}} has no spoken form`);
      return into.insert(netOf(node), from);
    };
  for (const { name, slots, sentences } of commands) {
    const nodeOf = (slot: string): Node | undefined => {
      const reading = slots[slot];
      return reading === undefined ? undefined : spoken(slot, readerNames.get(reading.read));
    };
    for (const [index, { node }] of sentences.entries()) {
      const said = speakable(node, (slot) => nodeOf(slot) !== undefined);
      if (said === undefined) continue;
      const end = builder.lay(said, begun, (slot, from) => {
        const inside = nodeOf(slot);
        if (inside === undefined) return from;
        const reading = slots[slot];
        const reader = reading === undefined ? undefined : readerNames.get(reading.read);
        return builder.insert(netOf(inside), withArticle(builder, reader, from));
      });
      // A template of which only its optional parts could be spoken says nothing.
      if (end !== begun) builder.end(end, howUsual(name, index === 0));
    }
  }
  for (const slot of answerSlots) {
    const node = spoken(slot, slot as ReaderName);
    if (node !== undefined) builder.end(builder.insert(netOf(node), begun), ANSWER);
  }
  const none: LaySlot = (_, from) => from;
  builder.end(builder.lay(answerWords, begun, none), ANSWER);
  builder.end(builder.lay(firstAidWord, begun, none), 0.3);
  builder.end(builder.lay(firstAid, begun, none), 0.03);
  builder.end(builder.lay(firstAidTold, begun, none), 0.03);
  return compact(builder.net());
}
