import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { loadCommands } from "../../src/commands/registry.ts";
import { playChat } from "../support/play-chat.ts";

const folder = import.meta.dirname;
const chats = readdirSync(folder).filter((file) => file.endsWith(".chat"));
const commands = await loadCommands();

test.each(chats)("%s reads as it stands", async (file) => {
  const path = join(folder, file);
  await expect(await playChat(readFileSync(path, "utf8"), commands)).toMatchFileSnapshot(path);
});

test("there are chats to read", () => {
  expect(chats.length).toBeGreaterThanOrEqual(6);
});
