import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { type BenchRecord, newRecord, recordSchema } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { instant } from "../../src/domain/units/quantity.ts";
import { spoiltSentence } from "../support/fuzz-sentences.ts";
import { evening } from "../support/runs.ts";
import { seeded } from "../support/seeded.ts";

const commands = await loadCommands();

test("whatever is said, the bench answers, stays readable and forgets nothing", () => {
  for (let seed = 1; seed <= 12; seed += 1) {
    const chance = seeded(seed);
    let record: BenchRecord = newRecord("t", "Europe/Lisbon");
    let now = evening;
    let everSaid = "";
    for (let said = 0; said < 120; said += 1) {
      const text = spoiltSentence(chance);
      const where = `seed ${seed}, ${said}: ${JSON.stringify(text)}`;
      const before = record;
      everSaid += text.toLowerCase();
      const heard = turn(record, { text, who: "Ines" }, now, commands);
      const { reply } = heard;
      expect(reply.say.split(/\s+/).length, where).toBeLessThanOrEqual(12);
      expect(reply.title.trim(), where).not.toBe("");
      const words = [reply.title, reply.say, ...reply.lines, ...reply.cautions].join("\n");
      expect(words, where).not.toMatch(/\bundefined\b|\[object|Error:/);
      // What was never said is not said back either; a note said before may hold it.
      if (!everSaid.includes("nan")) expect(words, where).not.toMatch(/\bNaN\b/);
      if (reply.kind === "refusal" || reply.facts.reason !== undefined) {
        expect(heard.record.undo, where).toBe(before.undo);
      }
      record = heard.record;
      // What is stored can be read back, and says the same.
      const stored = recordSchema.parse(JSON.parse(JSON.stringify(record)));
      expect(JSON.parse(JSON.stringify(stored)), where).toEqual(JSON.parse(JSON.stringify(record)));
      now = instant(now + Math.floor(chance() * 20_000));
    }
  }
}, 120_000);
