import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";

const top = join(import.meta.dirname, "..");
const readme = readFileSync(join(top, "README.md"), "utf8");
const transcripts = join(import.meta.dirname, "transcripts");
const chats = readdirSync(transcripts)
  .filter((file) => file.endsWith(".chat"))
  .map((file) => readFileSync(join(transcripts, file), "utf8"))
  .join("\n");

const firstBlock = /```\n([\s\S]*?)```/.exec(readme)?.[1] ?? "";
const exchange = firstBlock.split("\n").filter((line) => line.trim() !== "");

test("README opens with a real exchange", () => {
  expect(exchange.length).toBeGreaterThan(8);
});

test.each(exchange)("the chats in test/transcripts hold the README's line: %s", (line) => {
  expect(chats.split("\n")).toContain(line);
});

test("the two commands of README are scripts of the package", () => {
  const { scripts } = JSON.parse(readFileSync(join(top, "package.json"), "utf8")) as {
    scripts: Record<string, string>;
  };
  expect(readme).toContain("npm ci && npm start");
  expect(readme).toContain("npm ci && npm test");
  expect(Object.keys(scripts)).toEqual(
    expect.arrayContaining(["start", "chat", "test", "check", "bench"]),
  );
});
