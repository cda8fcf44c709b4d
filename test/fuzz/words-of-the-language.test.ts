import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { instant } from "../../src/domain/units/quantity.ts";
import { corpus } from "../support/fuzz-sentences.ts";
import { evening } from "../support/runs.ts";
import { seeded } from "../support/seeded.ts";

const commands = await loadCommands();

/** Names that every object has by itself, where a table of words may be asked for them. */
const WORDS = ["constructor", "toString", "__proto__", "valueOf", "hasOwnProperty"];

test.each(WORDS)(
  "%s in place of any word of an evening, and as an answer to any question",
  (word) => {
    let record = newRecord("t", "Europe/Lisbon");
    let now = evening;
    const chance = seeded(word.length);
    const hear = (text: string): void => {
      now = instant(now + 1000);
      const heard = turn(record, { text, who: word, standing: "owner" }, now, commands);
      record = heard.record;
      const { title, say, lines } = heard.reply;
      expect([title, say, ...lines].join("\n"), text).not.toMatch(/\[object|native code|undefined/);
    };
    for (const line of corpus) {
      const words = line.split(" ");
      const at = Math.floor(chance() * words.length);
      hear(words.with(at, word).join(" "));
      hear(line);
      // What was asked gets this for an answer, then the next line.
      hear(word);
    }
  },
);
