import { loadCommands } from "../../src/commands/registry.ts";
import { turn } from "../../src/conversation/turn.ts";
import { instant } from "../../src/domain/units/quantity.ts";
import { corpus, spoiltSentence } from "../support/fuzz-sentences.ts";
import { evening } from "../support/runs.ts";
import { seeded } from "../support/seeded.ts";
import { busyBench } from "../support/understand.ts";
import { percentile } from "./percentile.ts";

export type HardSentences = {
  readonly sentences: number;
  /** From a sentence to its answer, ms. */
  readonly p999: number;
  readonly max: number;
  readonly slowest: string;
};

/** As long as a sentence may be, each made to keep one of the readers hoping. */
const PUMPED = [
  "note ",
  "in ",
  "mix a hundred and ",
  "start developer for at with tank in north ",
  "the the the of of my our ",
  "swap instead of have says but have ",
  "5 % from 28 % to 2 % for 500 ml ",
  "a ",
  "seven ",
  "1 ",
  "100,000",
  "half past ",
  "every second tuesday of ",
  "between march and may with Dora ",
  "a full half full part ",
  "for each a roll per ",
  "remind me in at on every ",
  "developer was 38 at the start and ",
].map((piece) => piece.repeat(Math.ceil(1000 / piece.length)).slice(0, 1000));

/** Sentences that are spoilt in every way, and some that are made to be hard. */
export async function benchHardSentences(spoilt = 4000): Promise<HardSentences> {
  const commands = await loadCommands();
  const chance = seeded(2026);
  const all = [
    ...corpus,
    ...Array.from({ length: spoilt }, () => spoiltSentence(chance).slice(0, 1000)),
    ...Array.from({ length: 20 }, () => PUMPED).flat(),
  ];
  const took: { readonly text: string; readonly ms: number }[] = [];
  let record = busyBench;
  let now = evening;
  for (const [index, text] of [...corpus, ...all].entries()) {
    now = instant(now + 1000);
    const begin = performance.now();
    const heard = turn(record, { text, who: "Ines", standing: "owner" }, now, commands);
    const ms = performance.now() - begin;
    // The evening goes on for a while, then begins anew: no bench is so full of nonsense.
    record = index % 200 === 0 ? busyBench : heard.record;
    if (index >= corpus.length) took.push({ text, ms });
  }
  const slowest = took.reduce((worst, one) => (one.ms > worst.ms ? one : worst));
  return {
    sentences: took.length,
    p999: percentile(
      took.map(({ ms }) => ms),
      99.9,
    ),
    max: slowest.ms,
    slowest: slowest.text.slice(0, 60),
  };
}
