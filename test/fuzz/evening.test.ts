import fc from "fast-check";
import { expect, test } from "vitest";
import { customId } from "../../src/channels/discord/words/custom-id.ts";
import {
  readInteraction,
  type SlashData,
} from "../../src/channels/discord/words/read-interaction.ts";
import { readPress } from "../../src/channels/discord/words/read-press.ts";
import { readTeachForm } from "../../src/channels/discord/words/read-teach-form.ts";
import { renderReply } from "../../src/channels/discord/words/render-reply.ts";
import { slashFields } from "../../src/channels/discord/words/slash-fields.ts";
import { placeOf } from "../../src/channels/discord/words/slash-layout.ts";
import { takeTeachForm } from "../../src/channels/discord/words/take-teach-form.ts";
import { teachForm } from "../../src/channels/discord/words/teach-form.ts";
import { loadCommands } from "../../src/commands/registry.ts";
import { listeningOf } from "../../src/conversation/listening.ts";
import { type BenchRecord, recordSchema } from "../../src/conversation/record.ts";
import { type Message, openQuestion, turn } from "../../src/conversation/turn.ts";
import { decide } from "../../src/domain/session/decide.ts";
import { type Instant, instant } from "../../src/domain/units/quantity.ts";
import type { Reply } from "../../src/reply/reply.ts";
import { createMessage } from "../discord/stand-in/limits/message.ts";
import { corpus } from "../support/fuzz-sentences.ts";
import { evening } from "../support/runs.ts";
import { busyBench } from "../support/understand.ts";

const commands = await loadCommands();
const benchKey = "c100000000000000001";
const who = "Ines";

const strange = fc.oneof(
  fc.string({ unit: "binary", maxLength: 300 }),
  fc.string({ unit: "grapheme", maxLength: 60 }),
  fc.constantFrom(
    "",
    "-",
    "1e308",
    "NaN",
    "__proto__",
    "constructor",
    "\u202e\u202e",
    "a ".repeat(499),
  ),
);

/** What somebody types: out of the corpus as it is, run together, or strange. */
const typed = fc.oneof(
  { weight: 5, arbitrary: fc.constantFrom(...corpus) },
  {
    weight: 2,
    arbitrary: fc
      .tuple(fc.constantFrom(...corpus), strange, fc.constantFrom(...corpus))
      .map((parts) => parts.join(" ")),
  },
  { weight: 1, arbitrary: strange },
);

const value = fc.oneof(
  strange,
  fc.constantFrom("500 ml", "acorn", "north", "two 120", "38"),
  fc.double(),
  fc.boolean(),
);

type Act =
  | { readonly kind: "says"; readonly text: string }
  | { readonly kind: "slash"; readonly data: SlashData }
  /** Fields as no channel of ours would send them. */
  | { readonly kind: "raw"; readonly command: string; readonly fields: Record<string, unknown> }
  /** A button that is on the bench, whole or cut, or one that somebody made up and signed. */
  | { readonly kind: "press"; readonly which: number; readonly cut: number }
  | {
      readonly kind: "forges";
      readonly bench: string;
      readonly word: string;
      readonly asked: string;
    }
  | { readonly kind: "fills"; readonly texts: readonly string[]; readonly whole: boolean }
  | { readonly kind: "waits"; readonly ms: number };

const kind = <K extends Act["kind"]>(of: K) => fc.constant(of);
const commandOf = fc.constantFrom(...commands);

const act: fc.Arbitrary<Act> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ kind: kind("says"), text: typed }) },
  {
    weight: 4,
    arbitrary: fc.tuple(commandOf, fc.array(value, { maxLength: 6 })).map(([command, values]) => {
      const place = placeOf(commands, command.name);
      const options = slashFields(command).flatMap(({ option }, at) =>
        at < values.length ? [{ name: option, value: values[at] }] : [],
      );
      const inner = place?.sub === undefined ? options : [{ name: place.sub, options }];
      return { kind: "slash" as const, data: { name: place?.name ?? "", options: inner } };
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: kind("raw"),
      command: fc.oneof(
        commandOf.map(({ name }) => name),
        strange,
      ),
      fields: fc.dictionary(
        fc.oneof(
          strange,
          fc.constantFrom(...commands.flatMap((one) => slashFields(one).map(({ field }) => field))),
        ),
        fc.jsonValue({ maxDepth: 3 }),
        { maxKeys: 4 },
      ),
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      kind: kind("press"),
      which: fc.nat(30),
      cut: fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, fc.nat(40)),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: kind("forges"),
      bench: fc.constantFrom(benchKey, "c2", "../../home", "__proto__"),
      word: fc.oneof(
        fc.constantFrom(
          "o0",
          "o7",
          "o99",
          "ready",
          "in",
          "out",
          "next",
          "hold",
          "yes",
          "snooze",
          "done",
          "form",
          "share-yes",
        ),
        fc.string({ maxLength: 8 }),
      ),
      asked: fc.oneof(
        fc.constantFrom("run-1.0.w", "run-1.9999.p", "__proto__.0.w", "x.zzzzzzzzzzzz", "q1-x", ""),
        fc.string({ maxLength: 12 }),
      ),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: kind("fills"),
      texts: fc.array(typed, { maxLength: 5 }),
      whole: fc.boolean(),
    }),
  },
  { weight: 2, arbitrary: fc.record({ kind: kind("waits"), ms: fc.nat(400_000) }) },
);

const idsOf = (reply: Reply, record: BenchRecord, now: Instant): readonly string[] =>
  renderReply(reply, {
    bench: record.bench,
    benchKey,
    mode: record.bench.mode,
    now,
    question: openQuestion(record, who, now),
  }).flatMap((shown) => {
    // Whatever was said, what is shown is within the service's limits.
    expect(createMessage.safeParse(shown).error).toBeUndefined();
    return shown.components.flatMap((row) =>
      row.components.flatMap((one) => ("custom_id" in one ? [one.custom_id] : [])),
    );
  });

/** An id that cannot be made is none that anybody can send. */
function forged(bench: string, word: string, asked: string): string {
  try {
    return customId.make({ bench, word, asked });
  } catch {
    return "";
  }
}

function checkReply(reply: Reply): void {
  expect(reply.title.trim()).not.toBe("");
  expect(reply.say.split(/\s+/).length).toBeLessThanOrEqual(12);
  const words = [reply.title, reply.say, ...reply.lines, ...reply.cautions].join("\n");
  expect(words).not.toMatch(/\[object|Error: /);
  expect(words.length).toBeLessThan(60_000);
}

test("an evening of whatever can be sent: each answered, nothing thrown, the bench as sound as before", async () => {
  const law = fc.asyncProperty(fc.array(act, { minLength: 5, maxLength: 30 }), async (acts) => {
    let record = busyBench;
    let now = evening;
    let ids: readonly string[] = [];
    const hear = (words: object): Reply => {
      const heard = turn(record, { who, ...words } as Message, now, commands);
      record = heard.record;
      checkReply(heard.reply);
      const fresh = idsOf(heard.reply, record, now);
      if (fresh.length > 0) ids = [...fresh, ...ids].slice(0, 30);
      return heard.reply;
    };
    const press = (id: string): void => {
      const meant = readPress(id, { benchKey, record, who, now });
      if ("refusal" in meant) checkReply(meant.refusal);
      else if (!("form" in meant)) hear(meant);
    };
    for (const one of acts) {
      now = instant(now + 700);
      const before = record;
      switch (one.kind) {
        case "says":
          hear({ text: one.text });
          break;
        case "slash": {
          const read = readInteraction(one.data, commands, listeningOf(record.bench, now));
          if ("refusal" in read) checkReply(read.refusal);
          else hear(read);
          break;
        }
        case "raw":
          hear({ command: one.command, fields: one.fields });
          break;
        case "press": {
          const id = ids[one.which % Math.max(1, ids.length)] ?? "";
          press(id.slice(0, id.length - one.cut));
          if (one.cut > 0) expect(record).toBe(before);
          break;
        }
        case "forges":
          press(forged(one.bench, one.word, one.asked));
          if (one.bench !== benchKey) expect(record).toBe(before);
          break;
        case "fills": {
          const form = teachForm(record.bench.draft, benchKey, undefined);
          if (form === undefined) break;
          const components = form.components.flatMap((part, at) =>
            "component" in part && "custom_id" in part.component
              ? [{ component: { custom_id: part.component.custom_id, value: one.texts[at] } }]
              : [],
          );
          const custom_id = one.whole ? form.custom_id : form.custom_id.slice(0, -3);
          const read = readTeachForm({ custom_id, components }, { benchKey, record });
          expect("refusal" in read || one.whole).toBe(true);
          if ("refusal" in read) checkReply(read.refusal);
          else
            await takeTeachForm(
              read.answers,
              async (words) => hear(words),
              () => record.bench,
            );
          break;
        }
        case "waits":
          now = instant(now + one.ms);
          record = { ...record, bench: decide(record.bench, now).bench };
      }
    }
    const stored = JSON.parse(JSON.stringify(record));
    expect(JSON.parse(JSON.stringify(recordSchema.parse(stored)))).toEqual(stored);
  });
  // A field that no record keeps, in a question that waits for its answer.
  const found: Act = { kind: "raw", command: "add", fields: JSON.parse('{"__proto__":[]}') };
  // A place told at such length that its answer was longer than a breath.
  const text = "Acorn stands in the cellar  remind me friday 8pm to order fixer";
  const wordy: Act = { kind: "says", text };
  await fc.assert(law, { numRuns: 200, examples: [[[found]], [[wordy]]] });
}, 240_000);
