import { afterEach, expect, test } from "vitest";
import type { Engine } from "../engine.ts";
import { openProgram } from "./program.ts";

const standIn = new URL("../../../test/speech/stand-ins/recogniser.ts", import.meta.url).pathname;
const grammar = {
  net: { next: [], ends: new Map() },
  words: new Set(["how", "old", "is", "acorn"]),
};

let engine: Engine | undefined;
afterEach(() => engine?.close());

test("a program of the user's gets the words and whole utterances, and its text comes back", async () => {
  engine = openProgram([process.execPath, standIn]);
  await engine.prepare(grammar);
  engine.begin();
  for (let at = 0; at < 100; at += 1) engine.feed(new Int16Array(320).fill(at));
  expect(await engine.end()).toEqual({ text: "how old is acorn", score: 9 });
  engine.begin();
  engine.feed(new Int16Array(100));
  expect(await engine.end()).toEqual({ text: "", score: 9 });
});

test("a program that is not there is a fault, not a hang", async () => {
  engine = openProgram(["./no-such-recogniser"]);
  engine.begin();
  await new Promise((done) => setTimeout(done, 50));
  await expect(engine.prepare(grammar)).rejects.toThrow("no-such-recogniser");
  await expect(engine.end()).rejects.toThrow("no-such-recogniser");
});

test("a program that ends in the middle leaves the utterance unheard", async () => {
  engine = openProgram([process.execPath, "-e", "setTimeout(() => process.exit(2), 100)"]);
  await engine.prepare(grammar);
  engine.begin();
  expect(await engine.end()).toEqual({ text: "", score: -99 });
  await expect(engine.end()).rejects.toThrow("ended with 2");
});
