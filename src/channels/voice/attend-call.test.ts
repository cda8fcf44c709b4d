import { afterEach, expect, test } from "vitest";
import { evening } from "../../../test/support/runs.ts";
import { busyBench } from "../../../test/support/understand.ts";
import { loadCommands } from "../../commands/registry.ts";
import type { BenchRecord } from "../../conversation/record.ts";
import { answer } from "../../reply/reply.ts";
import type { EarEvent } from "../../speech/ear/listener.ts";
import type { Attendant, Sound } from "../discord/voice/ports.ts";
import { attendCalls } from "./attend-call.ts";

const commands = await loadCommands();
const open: Attendant[] = [];
afterEach(() => {
  for (const one of open.splice(0)) one.close();
});

/** A call on a bench where nothing runs, with ears that hear what they are told to. */
async function call(bench: Partial<BenchRecord["bench"]> = {}) {
  const log: string[] = [];
  const sounds: Sound[] = [];
  const tells: ((event: EarEvent) => void)[] = [];
  const attendant = await attendCalls({
    commands,
    engine: { kind: "program", command: ["none"] },
    begin({ tell }) {
      tells.push(tell);
      return {
        feed: () => undefined,
        names: () => undefined,
        press: () => undefined,
        release: () => undefined,
        close: async () => undefined,
      };
    },
  })({
    mouth: {
      cue: (sound) => sounds.push(sound),
      say: () => log.push("speech"),
      hush: () => undefined,
    },
    record: () => ({ ...busyBench, bench: { ...busyBench.bench, runs: {}, ...bench } }),
    now: () => evening,
    ask: async ({ name, standing }, { text }) => {
      log.push(`${name}, ${standing}: ${text}`);
      return answer({ title: "Done.", say: "Done." });
    },
    complain: (line) => log.push(line),
  });
  open.push(attendant);
  const people: string[] = [];
  /** Somebody says something; what they are at the bench is for the call to forget. */
  const says = async (name: string, text: string, more: Partial<EarEvent> = {}): Promise<void> => {
    if (!people.includes(name)) people.push(name);
    attendant.ears.hear({ id: name, name, standing: "owner" }, new Int16Array(320));
    const event = {
      kind: "heard",
      text,
      score: 8,
      endedAt: 0,
      byKey: false,
      torn: false,
      noisy: false,
    } as const;
    tells[people.indexOf(name)]?.({ ...event, ...more } as EarEvent);
    await new Promise((done) => setImmediate(done));
  };
  return { attendant, says, log, sounds, tells };
}

test("whoever speaks in a call is a member, whatever else they are", async () => {
  const { says, log } = await call();
  await says("Ines", "how old is acorn");
  expect(log).toContain("Ines, member: how old is acorn");
});

test("one's yes does not answer what was asked of another", async () => {
  const { says, log } = await call();
  await says("Ines", "undo");
  await says("Rui", "yes");
  expect(log.filter((line) => line.includes(": undo"))).toEqual([]);
  await says("Ines", "yes");
  expect(log.filter((line) => line.includes(": undo"))).toEqual(["Ines, member: undo"]);
});

test("a fault of the ears is written once, and the cues go on", async () => {
  const { attendant, tells, log, sounds } = await call();
  for (const _ of "ab") tells[0]?.({ kind: "fault", line: "My hearing stopped.", gone: false });
  expect(log).toEqual(["My hearing stopped."]);
  const cue = answer({ title: "Pour.", say: "North: pour.", facts: { cue: "pour" } });
  attendant.told([cue], busyBench.bench);
  await new Promise((done) => setImmediate(done));
  expect(sounds).toHaveLength(1);
  expect(sounds[0]).toMatchObject({ opus: expect.any(Array) });
});

test("in the dark no cue sounds and no question is put", async () => {
  const { attendant, says, log, sounds } = await call({ mode: "dark" });
  const cue = answer({ title: "Pour.", say: "North: pour.", facts: { cue: "pour" } });
  attendant.told([cue], busyBench.bench);
  await says("Ines", "undo");
  expect([sounds, log]).toEqual([[], []]);
});
