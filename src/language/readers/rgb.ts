import type { Rgb } from "../../domain/record/first-look.ts";
import type { Reading } from "../reader.ts";
import { bareNumber } from "./number.ts";

const channels = ["red", "green", "blue"] as const;
const between = new Set(["and", ",", "/", "is", "at", "rgb", "r", "g", "b"]);

/** What numbers may be announced by: "the gray is", "rgb". */
const lead = new Set("rgb the a unexposed edge gray is reads about".split(" "));

/** Scales a scanner shows: 8 bits to a channel, per cent, 16 bits. */
const scales = [255, 65_535] as const;

/**
 * The slot `{rgb}`: "201 128 90", "201,128,90", "the grey is 120 119 118", "red 201 green 128 blue 90", with "of 65535" or
 * "percent" behind it. Without a scale the smallest one that holds the numbers is taken.
 */
export function readRgb(words: readonly string[], from: number): readonly Reading<Rgb>[] {
  let start = from;
  while (lead.has(words[start] ?? "")) start += 1;
  const glued = /^\d+(\.\d+)?[,/]\d+(\.\d+)?[,/]\d+(\.\d+)?$/.test(words[start] ?? "");
  const [numbers, next] = glued
    ? [(words[start] ?? "").split(/[,/]/).map(Number), start + 1]
    : threeNumbers(words, start);
  const [red, green, blue] = numbers;
  if (red === undefined || green === undefined || blue === undefined) return [];
  const largest = Math.max(red, green, blue);
  if (Math.min(red, green, blue) < 0) return [];
  const said = scaleBehind(words, next);
  const most = said?.value ?? scales.find((one) => one >= largest);
  if (most === undefined || most < largest) return [];
  return [{ value: { red, green, blue, most }, next: said?.next ?? next }];
}

function threeNumbers(words: readonly string[], from: number): readonly [number[], number] {
  const numbers: number[] = [];
  let at = from;
  for (const channel of channels) {
    while (between.has(words[at] ?? "") || words[at] === channel) at += 1;
    const read = bareNumber(words, at).find(
      ({ value, next }) => typeof value === "number" && next === at + 1,
    );
    if (typeof read?.value !== "number") return [[], from];
    numbers.push(read.value);
    at = read.next;
  }
  return [numbers, at];
}

function scaleBehind(words: readonly string[], from: number): Reading<number> | undefined {
  if (words[from] === "percent" || words[from] === "%") return { value: 100, next: from + 1 };
  const at = words[from] === "out" ? from + 1 : from;
  if (words[at] !== "of") return undefined;
  const read = bareNumber(words, at + 1)[0];
  return typeof read?.value === "number" && read.value > 0
    ? { value: read.value, next: read.next }
    : undefined;
}
