import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { loadCommands } from "../../../src/commands/registry.ts";
import type { Engine } from "../../../src/speech/engine.ts";
import { judge } from "../../../src/speech/trust/judge.ts";
import { WAKE_WORD } from "../../../src/speech/wake-word.ts";
import { evening } from "../../support/runs.ts";
import { busyBench } from "../../support/understand.ts";
import { type Heard, listen, openTestEngine, type Place } from "../listen.ts";
import { meaningOf } from "../meaning.ts";
import { noise } from "../noises.ts";
import { talk } from "../talk.ts";
import { openSpeaker } from "../voices.ts";

/** A small part of what `npm run bench` measures whole, with the real recogniser and real voices. */
const commands = await loadCommands();
const speak = openSpeaker();
const changing = new Set(commands.filter((one) => one.changes).map(({ name }) => name));
/** Is it the meaning of a command that changes something? */
const changes = (meaning: string | undefined): boolean =>
  meaning !== undefined && changing.has(String(JSON.parse(meaning)[0]));
const calm = { ...busyBench, bench: { ...busyBench.bench, runs: {} } };
const judged = ({ text, score, noisy }: Heard) =>
  judge(
    {},
    { text, score, noisy, byKey: false },
    { record: calm, who: "me", now: evening, commands },
  ).judgement;

/** Hearing is work: a busy machine takes many times as long, ms. */
const AGES = 300_000;

let engine: Engine;
beforeAll(async () => {
  engine = await openTestEngine(commands);
}, AGES);
afterAll(() => engine.close());

const said = [
  "how much time is left",
  "how old is acorn",
  "what temperature should the developer be",
  "how long is the blix",
  "what goes into six hundred millilitres of developer",
  "rolls left in banjo",
  `${WAKE_WORD} start developer two rolls of one twenty tank north`,
  `${WAKE_WORD} temperature thirty seven point eight`,
  `${WAKE_WORD} mix one litre of developer`,
  `${WAKE_WORD} out`,
  `${WAKE_WORD} ready`,
  `${WAKE_WORD} bottle fixer two litres mixed yesterday`,
  `${WAKE_WORD} poured five hundred millilitres out of banjo`,
];

/** How many are heard as they were meant; what is done without a question has to be right. */
async function rightOf(place: Place, sentences: readonly string[]): Promise<number> {
  const clips = [
    ...speak(
      sentences.filter((_, at) => at % 2 === 0),
      "rms",
      1,
    ),
    ...speak(
      sentences.filter((_, at) => at % 2 === 1),
      "kal16",
      1.1,
    ),
  ];
  const heard = await listen(engine, clips, place);
  let right = 0;
  heard.forEach((events, at) => {
    const meant = meaningOf(clips[at]?.said ?? "", commands);
    if (events.some(({ text }) => meaningOf(text, commands) === meant)) right += 1;
    for (const event of events) {
      const judgement = judged(event);
      const got = judgement.kind === "pass" ? meaningOf(judgement.text, commands) : undefined;
      if (changes(got)) {
        expect(got, clips[at]?.said).toBe(meant);
      }
    }
  });
  return right / clips.length;
}

test(
  "in quiet nearly everything is heard as it was meant",
  async () => {
    expect(await rightOf({}, said)).toBeGreaterThanOrEqual(0.92);
  },
  AGES,
);

test(
  "beside a running tap most of it is, and nothing wrong is done",
  async () => {
    const some = said.slice(0, 9);
    expect(await rightOf({ noise: "water", db: 20 }, some)).toBeGreaterThanOrEqual(0.7);
  },
  AGES,
);

test(
  "unrelated talk is not answered",
  async () => {
    const clips = speak(
      talk.filter((_, at) => at % 20 === 0),
      "rms",
      1,
    );
    const heard = await listen(engine, clips, {});
    const answered = heard.flat().filter((event) => judged(event).kind !== "ignore");
    expect(answered.map(({ text }) => text)).toEqual([]);
  },
  AGES,
);

describe("what is no speech for it", () => {
  const RATE = 16_000;
  const heardOf = async (samples: Int16Array): Promise<readonly Heard[]> =>
    (await listen(engine, [{ samples }], {})).flat();
  const tune = Int16Array.from({ length: 4 * RATE }, (_, at) => {
    const beat = Math.floor(at / (RATE / 4)) % 4;
    const chord = [262, 330, 392, 523].slice(0, 3).map((hz) => hz * (1 + beat / 8));
    return chord.reduce((sum, hz) => sum + 3000 * Math.sin((2 * Math.PI * hz * at) / RATE), 0);
  });

  test.each([
    ["silence", new Int16Array(3 * RATE)],
    ["music", tune],
    [
      "a clipped roar",
      Int16Array.from(noise("pink", 3 * RATE, 4), (one) => (one > 0 ? 32_767 : -32_768)),
    ],
  ])("%s is not acted on", async (_, samples) => {
    const events = await heardOf(samples);
    expect(events.map(judged).filter(({ kind }) => kind !== "ignore")).toEqual([]);
  });

  test("two people at once change nothing", async () => {
    const [one, other] = [speak([said[7] ?? ""], "rms", 1)[0], speak([talk[5] ?? ""], "slt", 1)[0]];
    const both = Int16Array.from(
      { length: Math.max(one?.samples.length ?? 0, other?.samples.length ?? 0) },
      (_, at) => ((one?.samples[at] ?? 0) + (other?.samples[at] ?? 0)) / 2,
    );
    const meant = meaningOf(said[7] ?? "", commands);
    for (const event of await heardOf(both)) {
      const judgement = judged(event);
      if (judgement.kind === "pass") expect(meaningOf(judgement.text, commands)).toBe(meant);
    }
  });

  test("a sentence with holes of lost packets does nothing else than it says", async () => {
    const clip = speak([said[6] ?? ""], "rms", 1)[0];
    const torn = Int16Array.from(clip?.samples ?? [], (sample, at) =>
      Math.floor(at / 960) % 4 === 3 ? 0 : sample,
    );
    const meant = meaningOf(said[6] ?? "", commands);
    for (const event of await heardOf(torn)) {
      const judgement = judged(event);
      if (judgement.kind === "pass") expect(meaningOf(judgement.text, commands)).toBe(meant);
    }
  });

  test("a monologue without a pause is dropped and what follows is heard", async () => {
    const long = speak([talk.slice(0, 4).join(" and ")], "rms", 1)[0];
    const after = speak(["how old is acorn"], "rms", 1)[0];
    const heard = await listen(
      engine,
      [long, after].flatMap((clip) => (clip === undefined ? [] : [clip])),
      {},
    );
    expect((heard[0] ?? []).map(judged).filter(({ kind }) => kind !== "ignore")).toEqual([]);
    expect(heard[1]?.map(({ text }) => text)).toEqual(["how old is acorn"]);
  });
});
