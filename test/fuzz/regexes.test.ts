import { globSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { expect, test } from "vitest";
import { parseAst } from "vitest/node";
import { rescues } from "../../src/data/rescues.ts";
import { emergencies } from "../../src/data/safety.ts";
import { held, whole } from "../../src/language/holds-template.ts";

const top = join(import.meta.dirname, "../..");

/** The longest sentence that is listened to has so many characters. */
const LONGEST = 1000;
/**
 * Of one expression on one text, ms. What a busy machine adds fits in; an expression that tries
 * 2^n or n^3 ways does not.
 */
const PATIENCE = 400;

type Found = { readonly source: string; readonly flags: string; readonly where: string };

/** A node of the syntax tree, as far as anything is asked of it. */
type Node = { readonly type: string; readonly start: number; readonly end: number } & Readonly<
  Record<string, unknown>
>;

const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && "type" in value;

/** All nodes of a tree. */
function* nodes(value: unknown): Generator<Node> {
  if (Array.isArray(value)) for (const one of value) yield* nodes(one);
  else if (typeof value === "object" && value !== null) {
    if (isNode(value)) yield value;
    for (const one of Object.values(value)) yield* nodes(one);
  }
}

/** Names stand in an expression as a literal: what is put in has to be escaped. */
const NAME = "ines";

/** What `new RegExp` is given, as text: a literal, a constant of the file, or a template of both and of escaped names. */
function sourceOf(node: unknown, text: string, all: readonly Node[]): string | undefined {
  if (!isNode(node)) return undefined;
  if (node.type === "Literal") return String(node.value);
  if (node.type === "Identifier") {
    const meant = all.find(
      ({ type, id }) => type === "VariableDeclarator" && isNode(id) && id.name === node.name,
    );
    return meant === undefined ? undefined : sourceOf(meant.init, text, all);
  }
  if (node.type === "TemplateLiteral") {
    const parts = node.quasis as readonly { readonly value: { readonly cooked: string } }[];
    const inner = (node.expressions as readonly Node[]).map((one) => sourceOf(one, text, all));
    if (inner.includes(undefined)) return undefined;
    return parts.map(({ value }, index) => `${value.cooked}${inner[index] ?? ""}`).join("");
  }
  const written = text.slice(node.start, node.end);
  return node.type === "CallExpression" && written.includes("RegExp.escape(") ? NAME : undefined;
}

/** Every regular expression of a file: those written in it, and those it puts together. */
function expressionsIn(text: string, where: string): readonly Found[] {
  const all = [...nodes(parseAst(text, { lang: "ts" }).body)];
  return all.flatMap((node): readonly Found[] => {
    const { regex, callee, arguments: given } = node;
    if (typeof regex === "object" && regex !== null) {
      const { pattern, flags } = regex as { pattern: string; flags: string };
      return [{ source: pattern, flags, where }];
    }
    if (!isNode(callee) || callee.name !== "RegExp") return [];
    const [pattern, flags] = given as readonly Node[];
    const source = sourceOf(pattern, text, all);
    if (source === undefined) {
      throw new Error(`${where}: an expression is put together of text that is not escaped.`);
    }
    return [{ source, flags: sourceOf(flags, text, all) ?? "", where }];
  });
}

/** Here expressions are made of what the data holds: those are tried instead. */
const FROM_DATA = "src/language/holds-template.ts";

const fromData = (): readonly Found[] =>
  [
    ...emergencies.flatMap(({ ways }) => ways.map(held)),
    ...rescues.flatMap(({ ways }) => ways.map(({ says }) => whole(says))),
  ].map((source) => ({ source, flags: "", where: FROM_DATA }));

const expressions = (): readonly Found[] => [
  ...globSync("{src,commands}/**/*.ts", { cwd: top })
    .filter((path) => !path.endsWith(".test.ts") && path !== FROM_DATA)
    .flatMap((path) => expressionsIn(readFileSync(join(top, path), "utf8"), path)),
  ...fromData(),
];

/** Words and signs an expression speaks of: what keeps it hoping. */
function pieces(source: string): readonly string[] {
  const spelt = source
    .replace(/\\s/g, " ")
    .replace(/\\d/g, "7")
    .replace(/\\[wS]/g, "a")
    .replace(/\\p\{[^}]*\}/g, "a")
    .replace(/\\b/g, "");
  return [...new Set(spelt.match(/[a-z]+|[0-9]|[-+/.:,%°=<>"'@#&*~]/gi) ?? [])];
}

/** So many neighbours are tried together, with what any expression may wait for. */
const TOGETHER = 6;
const ANY = [" ", "a", "7", "\t"];

/** All pieces, in groups of neighbours that overlap: what lies far apart seldom stands for the same text. */
function groups(source: string): readonly (readonly string[])[] {
  const all = pieces(source);
  const found: string[][] = [];
  for (let from = 0; from === 0 || from + TOGETHER / 2 < all.length; from += TOGETHER / 2) {
    found.push([...new Set([...all.slice(from, from + TOGETHER), ...ANY])]);
  }
  return found;
}

/** Short texts first: what doubles with each character shows before it takes for ever. */
const LENGTHS = [
  ...[12, 14, 16, 18, 20, 22, 24, 27, 30, 34, 38, 42, 46, 50, 54, 58, 64],
  ...[100, 160, 260, 420, 670, LONGEST],
];

/** Pieces over and over, alone and in pairs, with ends that fit nothing. */
function* pumped(source: string): Generator<string> {
  const units = new Set(
    groups(source).flatMap((all) =>
      all.flatMap((one) => [
        one,
        ...all.flatMap((other) => [`${one}${other}`, `${one} ${other} `]),
      ]),
    ),
  );
  for (const length of LENGTHS) {
    for (const unit of units) {
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
  const late = `^(?:${[..."bcdefghijklm"].join("|")}|(qu+|u+)+)$`;
  for (const source of ["^(in|i|n)*$", "^(.*a){4}b$", "(7+)+x", late]) {
    expect(slowest({ source, flags: "" }), source).toBeGreaterThan(PATIENCE);
  }
});

test("expressions that are put together are seen, and text in them that is not escaped is refused", () => {
  const text = `
    const unit = "ml|l";
    const glued = new RegExp(\`^(\${unit})+$\`, "u");
    const called = (name: string) => RegExp(\`\${RegExp.escape(name)}s?\`);
  `;
  expect(expressionsIn(text, "a.ts")).toEqual([
    { source: "^(ml|l)+$", flags: "u", where: "a.ts" },
    { source: `${NAME}s?`, flags: "", where: "a.ts" },
  ]);
  const open = `const called = (name: string) => new RegExp(\`\${name}s?\`);`;
  expect(() => expressionsIn(open, "b.ts")).toThrow("b.ts");
});

test("no regular expression of the program blows up on the longest text it may be given", () => {
  const all = expressions();
  expect(all.length).toBeGreaterThan(200);
  const bad = all.filter((one) => slowest(one) > PATIENCE);
  expect(bad).toEqual([]);
}, 300_000);
