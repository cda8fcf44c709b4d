import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { z } from "zod";
import type { Engine, EngineGrammar, EngineHeard } from "../engine.ts";

/** What the program answers for one utterance, one line of JSON. */
const answerSchema = z.object({
  utterance: z.number().int(),
  text: z.string().max(1000),
  /** Its own certainty, 0 to 1. */
  certainty: z.number().min(0).max(1).default(0.5),
});

/** An utterance is given up after this long without an answer, ms. */
const PATIENCE = 10_000;

/**
 * A recogniser of the user's own as a program that runs beside this one. On its standard input it
 * gets messages: one line of JSON, then, where the line says `bytes`, that many bytes of sound
 * (16-bit little-endian samples, 16 kHz, one channel):
 *
 *   {"kind":"words","words":["in","out",...]}            what can be said, at the start and when it changes
 *   {"kind":"utterance","utterance":1,"bytes":32000}     one whole utterance
 *
 * For each utterance it writes one line: {"utterance":1,"text":"start developer","certainty":0.9}.
 */
export function openProgram([file, ...args]: readonly string[]): Engine {
  if (file === undefined) throw new Error("no program is named to hear with");
  const child: ChildProcessWithoutNullStreams = spawn(file, args, {
    stdio: ["pipe", "pipe", "pipe"],
  });
  child.stderr.resume();
  let fault: Error | undefined;
  const waiting = new Map<number, (heard: EngineHeard) => void>();
  const fail = (error: Error): void => {
    fault ??= error;
    for (const done of waiting.values()) done(nothing);
    waiting.clear();
  };
  child.on("error", fail);
  child.stdin.on("error", fail);
  child.on("exit", (code) => fail(new Error(`${file} ended with ${code}`)));
  createInterface({ input: child.stdout }).on("line", (line) => {
    const answer = answerSchema.safeParse(readJson(line));
    if (!answer.success) return;
    const { utterance, text, certainty } = answer.data;
    waiting.get(utterance)?.({ text: text.toLowerCase().trim(), score: certainty * 10 });
    waiting.delete(utterance);
  });

  let utterance = 0;
  let sound: Int16Array[] = [];
  return {
    async prepare({ words }: EngineGrammar) {
      if (fault !== undefined) throw fault;
      child.stdin.write(`${JSON.stringify({ kind: "words", words: [...words] })}\n`);
    },
    begin() {
      sound = [];
    },
    feed(samples) {
      sound.push(samples);
    },
    async end() {
      if (fault !== undefined) throw fault;
      utterance += 1;
      const bytes = Buffer.concat(
        sound.map(({ buffer, byteOffset, byteLength }) =>
          Buffer.from(buffer, byteOffset, byteLength),
        ),
      );
      sound = [];
      const head = JSON.stringify({ kind: "utterance", utterance, bytes: bytes.length });
      child.stdin.write(`${head}\n`);
      child.stdin.write(bytes);
      const mine = utterance;
      return new Promise<EngineHeard>((done) => {
        const late = setTimeout(() => {
          waiting.delete(mine);
          done(nothing);
        }, PATIENCE);
        waiting.set(mine, (heard) => {
          clearTimeout(late);
          done(heard);
        });
      });
    },
    close() {
      child.kill();
    },
  };
}

const nothing: EngineHeard = { text: "", score: -99 };

function readJson(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}
