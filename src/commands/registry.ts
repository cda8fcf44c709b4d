import { readdirSync } from "node:fs";
import { join } from "node:path";
import type { Command } from "./define-command.ts";

const isCommand = (value: unknown): value is Command =>
  typeof value === "object" && value !== null && "handle" in value && "sentences" in value;

/** The files of the `commands` folder that hold commands, in order of name. */
export function commandFiles(): readonly string[] {
  const folder = join(import.meta.dirname, "../../commands");
  return readdirSync(folder)
    .filter((file) => file.endsWith(".ts") && !file.endsWith(".test.ts"))
    .sort()
    .map((file) => join(folder, file));
}

/**
 * Every command in the `commands` folder, in order of file name: a new file there is a new command.
 *
 * @throws at start when two commands share a name
 */
export async function loadCommands(): Promise<readonly Command[]> {
  const modules = await Promise.all(
    commandFiles().map((file) => import(file) as Promise<Record<string, unknown>>),
  );
  const commands = modules.flatMap((module) => Object.values(module).filter(isCommand));
  const names = new Set(commands.map(({ name }) => name));
  if (names.size !== commands.length) throw new Error("two commands share a name");
  return commands;
}
