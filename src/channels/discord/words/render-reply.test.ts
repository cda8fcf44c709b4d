import { parse } from "discord-markdown-parser";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { createMessage } from "../../../../test/discord/stand-in/limits/message.ts";
import { benchWith, evening, runOf, stageOf } from "../../../../test/support/runs.ts";
import { instant, seconds } from "../../../domain/units/quantity.ts";
import { answer, cue, question, type Reply, refuse, reminder } from "../../../reply/reply.ts";
import { cueMessage } from "./cue-message.ts";
import { type RenderContext, renderReply } from "./render-reply.ts";

const bench = benchWith(runOf([stageOf()]));
const context: RenderContext = {
  bench,
  benchKey: "100000000000000001",
  mode: "bench",
  now: evening,
};
const text = (reply: Reply, more: Partial<RenderContext> = {}): string =>
  renderReply(reply, { ...context, ...more })
    .map(({ content }) => content)
    .join("\n---\n");

const mixed = answer({
  title: "946 mL of developer, quart outline",
  say: "591 mL of water first.",
  lines: ["start water  591 mL (20 US fl oz)", "part A  all of it"],
  cautions: ["Gloves and glasses: it burns."],
  clock: { kind: "running", tank: "North", bath: "developer", left_s: 133 },
});

test("all of a reply at the bench", () => {
  expect(text(mixed)).toBe(
    [
      "**946 mL of developer, quart outline**",
      "start water  591 mL (20 US fl oz)",
      "part A  all of it",
      "⚠️ Gloves and glasses: it burns.",
      `-# North developer 2:13 left, <t:${evening / 1000 + 133}:T>`,
    ].join("\n"),
  );
});

test("that no clock is running is said once", () => {
  const clock = { kind: "no-clock" } as const;
  const hello = answer({ title: "Here I am. No clock is running.", say: "Here I am.", clock });
  expect(text(hello)).toBe("**Here I am. No clock is running.**");
  const bottles = answer({ title: "2 bottles", say: "Two bottles.", clock });
  expect(text(bottles)).toBe("**2 bottles**\n-# no clock running");
});

test("one line with wet hands, and only what was asked in the dark", () => {
  expect(text(mixed, { mode: "wet" })).toBe("591 mL of water first.");
  expect(text(mixed, { mode: "dark" })).toBe("591 mL of water first.");
  const pour = cue({
    title: "North: pour out now.",
    say: "North: pour out now.",
    facts: { cue: "pour-out" },
  });
  expect(text(pour, { mode: "wet" })).toBe("North: pour out now.");
  expect(renderReply(pour, { ...context, mode: "dark" })).toEqual([]);
  const due = reminder({ title: "Reminder: order fixer", say: "Reminder: order fixer" });
  expect(renderReply(due, { ...context, mode: "dark" })).toEqual([]);
  const late = { ...pour, kind: "question" as const, facts: { cue: "ask-in" } };
  expect(renderReply(late, { ...context, mode: "dark" })).toEqual([]);
  expect(text(refuse("over", "North is over."), { mode: "dark" })).toBe("North is over.");
});

test("a cue begins with the tank and the verb, and calls only whom it is told to", () => {
  const pour = cue({
    title: "North: pour out now.",
    say: "North: pour out now.",
    lines: ["next: blix: Lantern, the ring"],
    facts: { cue: "pour-out" },
  });
  const [silent] = cueMessage(pour, context);
  expect(silent?.content).toBe("North: pour out now.\nnext: blix: Lantern, the ring");
  expect(silent?.allowed_mentions).toEqual({ parse: [] });
  const [loud] = cueMessage(pour, { ...context, mention: "200000000000000002" });
  expect(loud?.content.split("\n")[0]).toBe("North: pour out now. <@200000000000000002>");
  expect(loud?.allowed_mentions).toEqual({ parse: [], users: ["200000000000000002"] });
});

describe("a question offers its answers", () => {
  const ask = {
    command: "batch",
    fields: {},
    slot: "total",
    options: [
      { word: "us", value: 946 },
      { word: "imperial", value: 1137 },
    ],
  };
  const asked = question(ask, '"quart": US or Imperial?');

  test("as buttons where they fit", () => {
    const pending = { ask, at: evening };
    const [message] = renderReply(asked, { ...context, question: pending });
    expect(message?.content).toBe('**"quart": US or Imperial?**');
    expect(message?.components).toMatchObject([
      { components: [{ label: "us" }, { label: "imperial" }] },
    ]);
  });

  test("in words where there are too many", () => {
    const options = Array.from({ length: 11 }, (_, index) => ({ word: `w${index}`, value: index }));
    const many = { ...ask, options };
    const [message] = renderReply(question(many, "Which?"), {
      ...context,
      question: { ask: many, at: evening },
    });
    expect(message?.content).toContain("(w0 / w1 / w2");
    expect(message?.components).toEqual([]);
  });
});

test("an answer nobody else is to see carries that flag", () => {
  expect(renderReply(mixed, { ...context, ephemeral: true })[0]?.flags).toBe(4 | 64);
  expect(renderReply(mixed, context)[0]?.flags).toBe(4);
});

/** Texts as they may come from anybody, in every part of a reply. */
const words = fc.oneof(
  fc.string({ unit: "binary", maxLength: 60 }),
  fc
    .array(
      fc.constantFrom(
        "@everyone",
        "<@1>",
        "**",
        "||",
        "`",
        "\n",
        "> ",
        "# ",
        "https://a.b/c",
        "-# ",
        "a ",
        "[x](y)",
      ),
      { maxLength: 30 },
    )
    .map((pieces) => pieces.join("")),
);
const huge = fc.string({ minLength: 1500, maxLength: 5000 });
const repliesOf = (words: fc.Arbitrary<string>) =>
  fc
    .record({
      kind: fc.constantFrom("reply", "cue", "reminder", "refusal", "question"),
      title: words.map((title) => `x${title}`),
      say: words.map((say) => `x${say}`),
      lines: fc.array(words, { maxLength: 8 }),
      cautions: fc.array(words, { maxLength: 3 }),
    })
    .map(
      (parts): Reply => ({
        ...answer({ title: "", say: "" }),
        ...parts,
        kind: parts.kind as Reply["kind"],
      }),
    );

/** What this channel itself writes: bold titles and small print. */
const OURS: ReadonlySet<string> = new Set([
  "text",
  "br",
  "newline",
  "twemoji",
  "emoticon",
  "strong",
  "subtext",
]);

const rendered = (reply: Reply, mode: string) =>
  renderReply(reply, { ...context, mode: mode as RenderContext["mode"] });

test("whatever is in it, each message is within the limits and calls nobody", () => {
  const law = fc.property(
    repliesOf(fc.oneof(words, huge)),
    fc.constantFrom("bench", "wet", "dark"),
    (reply, mode) => {
      for (const message of rendered(reply, mode)) {
        expect(createMessage.safeParse(JSON.parse(JSON.stringify(message))).error).toBeUndefined();
        expect(message.content.length).toBeGreaterThan(0);
        expect(message.allowed_mentions).toEqual({ parse: [] });
      }
    },
  );
  fc.assert(law, { numRuns: 200, endOnFailure: true });
});

test("whatever is in it, it is plain text but for our own signs", () => {
  const law = fc.property(repliesOf(words), fc.constantFrom("bench", "wet"), (reply, mode) => {
    for (const { content } of rendered(reply, mode)) {
      const kinds = parse(content, "extended").map(({ type }) => type);
      expect(kinds.filter((kind) => !OURS.has(kind))).toEqual([]);
    }
  });
  fc.assert(law, { numRuns: 300 });
});

test("a long reply goes on in more messages, whole lines in order, buttons under the last", () => {
  const lines = Array.from({ length: 200 }, (_, index) => `line ${index} of many words`);
  const messages = renderReply(answer({ title: "Long", say: "Long.", lines }), context);
  expect(messages.length).toBeGreaterThan(1);
  expect(
    messages
      .map(({ content }) => content)
      .join("\n")
      .split("\n")
      .slice(1),
  ).toEqual(lines);
  expect(messages.slice(0, -1).every(({ components }) => components.length === 0)).toBe(true);
  expect(messages.at(-1)?.components).not.toEqual([]);
});

test("a moment over its time says so", () => {
  const clock = { kind: "running", tank: "North", bath: "wash", left_s: seconds(-5) } as const;
  const now = instant(evening);
  expect(text({ ...mixed, clock }, { now })).toContain("-# North wash over by 5 s, <t:");
  expect(text({ ...mixed, clock: { kind: "no-clock" } })).toContain("-# no clock running");
});

test("what the clock is doing fits a message, however long a tank is called", () => {
  const clock = {
    kind: "running",
    tank: "x".repeat(5000),
    bath: "wash",
    left_s: seconds(5),
  } as const;
  for (const { content } of renderReply({ ...mixed, clock }, context)) {
    expect(content.length).toBeLessThanOrEqual(2000);
  }
});
