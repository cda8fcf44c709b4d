import { expect, test } from "vitest";
import { evening } from "../../../test/support/runs.ts";
import { busyBench } from "../../../test/support/understand.ts";
import { loadCommands } from "../../commands/registry.ts";
import type { BenchRecord } from "../../conversation/record.ts";
import { answer, type Reply, refuse } from "../../reply/reply.ts";
import type { EarEvent } from "../../speech/ear/listener.ts";
import { createTalk } from "./talk.ts";

const commands = await loadCommands();

/** A talk whose bench answers everything alike, with all that was said and shown. */
function talking({ handsFree = true, speaking = false } = {}) {
  const log: string[] = [];
  const record = { ...busyBench, bench: { ...busyBench.bench, runs: {} } };
  const talk = createTalk({
    bell: {
      now: () => evening,
      take: async ({ text }) => {
        log.push(`bench: ${text}`);
        return answer({ title: "Done.", say: "Done." });
      },
    },
    keeper: { record },
    commands,
    who: "Ines",
    handsFree,
    answer: ({ say }: Reply) => log.push(`answer: ${say}`),
    say: (line) => log.push(`say: ${line}`),
    heard: (text) => log.push(`heard: ${text}`),
    note: (line) => log.push(`note: ${line}`),
    speaking: () => speaking,
    faultReply: (error) => refuse("fault", String(error)),
  });
  const hear = async (text: string, more: Partial<EarEvent> = {}): Promise<void> => {
    await talk.hear({ kind: "began" });
    const heard = {
      kind: "heard",
      text,
      score: 5,
      endedAt: 0,
      byKey: false,
      torn: false,
      noisy: false,
    } as const;
    await talk.hear({ ...heard, ...more } as EarEvent);
  };
  return { talk, hear, log };
}

test("a question goes to the bench and its answer is spoken; what was heard is shown", async () => {
  const { hear, log } = talking();
  await hear("how old is acorn");
  expect(log).toEqual(["heard: how old is acorn", "bench: how old is acorn", "answer: Done."]);
});

test("a change is read back first and done on yes", async () => {
  const { hear, log } = talking();
  await hear("undo");
  await hear("yes");
  expect(log[0]).toBe("say: Undo, right?");
  expect(log).toContain("bench: undo");
});

test("by key only, nothing else is listened to", async () => {
  const { hear, log } = talking({ handsFree: false });
  await hear("left");
  expect(log).toEqual([]);
  await hear("undo", { byKey: true });
  expect(log).toContain("bench: undo");
});

test("our own words from the loudspeaker are nobody's command", async () => {
  const { hear, log } = talking({ speaking: true });
  await hear("left");
  expect(log).toEqual([]);
});

test("sound that was torn, and an ear that broke, are said in plain lines", async () => {
  const { talk, hear, log } = talking();
  await hear("", { byKey: true, torn: true });
  await talk.hear({ kind: "too-long" });
  await talk.hear({ kind: "fault", line: "My hearing stopped and starts again.", gone: false });
  expect(log).toEqual([
    expect.stringContaining("too loud"),
    "say: I did not catch that.",
    expect.stringContaining("one long talk"),
    "answer: My hearing stopped and starts again.",
  ]);
});

test("what fails with one utterance is said and leaves the ear to the next; first aid needs no bench", async () => {
  const log: string[] = [];
  const talk = createTalk({
    bell: { now: () => evening, take: async () => answer({ title: "Rinse.", say: "Rinse." }) },
    keeper: { record: { bench: undefined } as unknown as BenchRecord },
    commands,
    who: "Ines",
    handsFree: true,
    answer: ({ say }) => log.push(`answer: ${say}`),
    say: (line) => log.push(`say: ${line}`),
    heard: () => undefined,
    note: (line) => log.push(`note: ${line}`),
    speaking: () => false,
    faultReply: () => refuse("fault", "Something went wrong."),
  });
  const heard = { kind: "heard", score: 8, endedAt: 0, byKey: false, torn: false } as const;
  await talk.hear({ ...heard, noisy: false, text: "left" });
  await talk.hear({ ...heard, noisy: false, text: "eyes" });
  expect(log).toEqual(["note: Something went wrong.", "answer: Rinse."]);
});
