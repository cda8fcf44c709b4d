import { readdir } from "node:fs/promises";
import { join } from "node:path";
import type { Command } from "./define-command.ts";

const isCommand = (value: unknown): value is Command =>
  typeof value === "object" && value !== null && "handle" in value && "sentences" in value;

/**
 * Every command in the `commands` folder, in order of file name: a new file there is a new command.
 *
 * @throws at start when two commands share a name
 */
export async function loadCommands(): Promise<readonly Command[]> {
  const folder = join(import.meta.dirname, "../../commands");
  const files = (await readdir(folder)).filter(
    (file) => file.endsWith(".ts") && !file.endsWith(".test.ts"),
  );
  const modules = await Promise.all(
    files.sort().map((file) => import(join(folder, file)) as Promise<Record<string, unknown>>),
  );
  const commands = modules.flatMap((module) => Object.values(module).filter(isCommand));
  const names = new Set(commands.map(({ name }) => name));
  if (names.size !== commands.length) throw new Error("two commands share a name");
  return commands;
}
