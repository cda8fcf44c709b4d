import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { expect, test } from "vitest";

const root = resolve(import.meta.dirname, "../..");

/** All files of ours, and packages, that are loaded with a file before anything is run. */
function loadedWith(entries: readonly string[]): ReadonlySet<string> {
  const seen = new Set<string>();
  const waiting = entries.map((entry) => join(root, entry));
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    const name = relative(root, file);
    if (seen.has(name)) continue;
    seen.add(name);
    const text = readFileSync(file, "utf8");
    // Types are stripped and load nothing.
    for (const [, from = ""] of text.matchAll(
      /^(?:import|export) (?!type )[^;]*?from "([^"]+)"/gm,
    )) {
      if (!from.startsWith(".")) seen.add(from);
      else if (from.endsWith(".ts")) waiting.push(resolve(dirname(file), from));
    }
  }
  return seen;
}

const commands = readdirSync(join(root, "commands")).map((name) => `commands/${name}`);

test.each([
  ["the terminal", ["src/main.ts", ...commands]],
  [
    "Discord without a call",
    ["src/channels/discord/run-with-discord.ts", "src/channels/voice/attend-lazily.ts"],
  ],
])("%s starts without loading anything that hears or speaks", (_, entries) => {
  const loaded = [...loadedWith(entries)];
  expect(loaded.length).toBeGreaterThan(20);
  const speech = loaded.filter(
    (name) =>
      /^(koffi|opusscript|@echogarden|@discordjs\/voice|@snazzah|@noble)/.test(name) ||
      (name.startsWith("src/speech/") && name !== "src/speech/debian-model.ts"),
  );
  expect(speech).toEqual([]);
});
