import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";

/** A fault whose message was made by us, and holds nothing of anybody's. */
export class OwnFault extends Error {
  override readonly name = "OwnFault";
}

const ROOT = join(import.meta.dirname, "../..");

/**
 * A fault in words for whoever mends it, fit for anybody's eyes: what kind it is and where in the
 * program it was. Its message is left out unless it is ours, since the messages of the system and
 * of libraries hold paths, what was being read, or what somebody said.
 */
export function faultWords(error: unknown): string {
  if (!(error instanceof Error)) return "something that is no error was thrown";
  if (error instanceof OwnFault) return error.message;
  const name = /^[\w .[\]]{1,60}$/.test(error.name) ? error.name : "Error";
  const code = codeOf(error);
  const place = placeOf(framesOf(error));
  return [name, code, place === undefined ? undefined : `at ${place}`]
    .filter((part) => part !== undefined)
    .join(" ");
}

/** "ENOSPC", say, or a number a service gave. */
function codeOf(error: Error): string | undefined {
  const code = "code" in error ? String(error.code) : "";
  return /^[A-Z0-9_]{2,40}$/.test(code) && !error.name.includes(code) ? `(${code})` : undefined;
}

/** The stack without the message it begins with. */
function framesOf({ stack = "", name, message }: Error): string {
  const head = [`${name}: ${message}`, message, name].find((text) => stack.startsWith(text));
  return stack.slice(head?.length ?? 0);
}

/** The first line of our own in a stack, from the program's folder on. */
function placeOf(stack: string): string | undefined {
  for (const [, from = "", line] of stack.matchAll(
    /\(?((?:file:\/\/)?\/[^\s()]+):(\d+):\d+\)?$/gm,
  )) {
    const path = relative(ROOT, from.startsWith("file:") ? fileURLToPath(from) : from);
    if (/^(src|commands)[\\/][\w./\\-]+\.ts$/.test(path))
      return `${path.split(sep).join("/")}:${line}`;
  }
  return undefined;
}
