import { expect, test } from "vitest";
import type { EarEvent } from "../../speech/ear/listener.ts";
import { openCallEars } from "./ears-of-a-call.ts";

/** Ears that only count what they are given. */
function callEars(isRoom = true) {
  const ears: { fed: number; names: number; tell: (event: EarEvent) => void }[] = [];
  const told: string[] = [];
  let time = 0;
  const call = openCallEars({
    open(tell) {
      const one = { fed: 0, names: 0, tell };
      ears.push(one);
      return {
        feed(samples) {
          one.fed += samples.length;
        },
        names() {
          one.names += 1;
        },
        press: () => undefined,
        release: () => undefined,
        close: async () => undefined,
      };
    },
    tell: (person, event) => told.push(`${person} ${event.kind}`),
    onFault: (line) => told.push(line),
    isRoom: () => isRoom,
    now() {
      time += 1;
      return time;
    },
  });
  return { call, ears, told };
}

const piece = new Int16Array(320);

test("one is ready before anybody speaks, and one more for whoever speaks next", () => {
  const { call, ears, told } = callEars();
  expect(ears).toHaveLength(1);
  call.hear("Ines", piece);
  expect(ears.map(({ fed }) => fed)).toEqual([320, 0]);
  call.hear("Rui", piece);
  call.hear("Ines", piece);
  expect(ears.map(({ fed }) => fed)).toEqual([640, 320, 0]);
  ears[1]?.tell({ kind: "began" });
  expect(told).toEqual(["Rui began"]);
});

test("the end of speech is half a second of silence, so that an utterance ends", () => {
  const { call, ears } = callEars();
  call.hear("Ines", piece);
  call.end("Ines");
  call.end("nobody");
  expect(ears[0]?.fed).toBe(320 + 8000);
});

test("never more than four; whoever was silent longest gives theirs up, no one who speaks does", () => {
  const { call, ears, told } = callEars();
  for (const person of ["a", "b", "c", "d"]) call.hear(person, piece);
  call.hear("e", piece);
  expect(ears.map(({ fed }) => fed)).toEqual([320, 320, 320, 320]);
  call.end("c");
  call.end("a");
  call.hear("e", piece);
  expect(ears).toHaveLength(4);
  ears[0]?.tell({ kind: "began" });
  expect(told).toEqual(["e began"]);
});

test("every ear knows the names, also one that is begun later", () => {
  const { call, ears } = callEars();
  call.names({ bottle: ["acorn"], tank: [], sheet: [], thermometer: [] });
  call.hear("Ines", piece);
  expect(ears.map(({ names }) => names)).toEqual([1, 1]);
});

test("where nothing can be heard no more ears are tried", () => {
  const { call, ears, told } = callEars();
  ears[0]?.tell({ kind: "fault", line: "I cannot hear any more.", gone: true });
  for (const person of ["a", "b", "c"]) call.hear(person, piece);
  expect(ears).toHaveLength(1);
  expect(told).toEqual(["I cannot hear any more."]);
});

test("with little memory one ear goes from one speaker to the next", () => {
  const { call, ears, told } = callEars(false);
  call.hear("Ines", piece);
  call.hear("Rui", piece);
  expect(ears.map(({ fed }) => fed)).toEqual([320]);
  call.end("Ines");
  call.hear("Rui", piece);
  ears[0]?.tell({ kind: "began" });
  expect([ears.length, told]).toEqual([1, ["Rui began"]]);
});
