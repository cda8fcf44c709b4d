import { globSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { expect, test } from "vitest";
import { parseAst } from "vitest/node";

const top = join(import.meta.dirname, "../..");

/** The longest sentence that is listened to has so many characters. */
const LONGEST = 1000;
/**
 * Of one expression on one text, ms. What a busy machine adds fits in; an expression that tries
 * 2^n or n^3 ways does not.
 */
const PATIENCE = 400;

type Found = { readonly source: string; readonly flags: string; readonly where: string };

/** Every regular expression written in the program. */
function expressions(): readonly Found[] {
  const found: Found[] = [];
  const look = (node: unknown, where: string): void => {
    if (Array.isArray(node)) for (const one of node) look(one, where);
    else if (typeof node === "object" && node !== null) {
      if ("regex" in node && typeof node.regex === "object" && node.regex !== null) {
        const { pattern, flags } = node.regex as { pattern: string; flags: string };
        found.push({ source: pattern, flags, where });
      } else for (const one of Object.values(node)) look(one, where);
    }
  };
  for (const path of globSync("{src,commands}/**/*.ts", { cwd: top })) {
    if (path.endsWith(".test.ts")) continue;
    look(parseAst(readFileSync(join(top, path), "utf8"), { lang: "ts" }).body, path);
  }
  return found;
}

/** Words and signs an expression speaks of: what keeps it hoping. */
function pieces(source: string): readonly string[] {
  const spelt = source
    .replace(/\\s/g, " ")
    .replace(/\\d/g, "7")
    .replace(/\\[wS]/g, "a")
    .replace(/\\p\{[^}]*\}/g, "a")
    .replace(/\\b/g, "");
  const words = spelt.match(/[a-z]+|[0-9]|[-+/.:,%°=<>"'@#&*~]/gi) ?? [];
  return [...new Set([...words, " ", "a", "7", "\t"])].slice(0, 8);
}

/** Short texts first: what doubles with each character shows before it takes for ever. */
const LENGTHS = [
  ...[12, 14, 16, 18, 20, 22, 24, 27, 30, 34, 38, 42, 46, 50, 54, 58, 64],
  ...[100, 160, 260, 420, 670, LONGEST],
];

/** Pieces over and over, alone and in pairs, with ends that fit nothing. */
function* pumped(source: string): Generator<string> {
  const all = pieces(source);
  const units = all.flatMap((one) => [
    one,
    ...all.flatMap((other) => [`${one}${other}`, `${one} ${other} `]),
  ]);
  for (const length of LENGTHS) {
    for (const unit of new Set(units)) {
      const text = unit.repeat(Math.ceil(length / unit.length)).slice(0, length - 1);
      yield text;
      yield `${text}\u0001`;
    }
  }
}

const slowest = ({ source, flags }: Pick<Found, "source" | "flags">): number => {
  const expression = new RegExp(source, flags.replace(/[gy]/g, ""));
  let worst = 0;
  for (const text of pumped(source)) {
    const begin = performance.now();
    expression.test(text);
    worst = Math.max(worst, performance.now() - begin);
    if (worst > PATIENCE) break;
  }
  return worst;
};

test("expressions that blow up are seen as such", () => {
  for (const source of ["^(in|i|n)*$", "^(.*a){4}b$", "(7+)+x"]) {
    expect(slowest({ source, flags: "" }), source).toBeGreaterThan(PATIENCE);
  }
});

test("no regular expression of the program blows up on the longest text it may be given", () => {
  const all = expressions();
  expect(all.length).toBeGreaterThan(200);
  const bad = all.filter((one) => slowest(one) > PATIENCE);
  expect(bad).toEqual([]);
}, 300_000);
