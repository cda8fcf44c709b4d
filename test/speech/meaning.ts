import type { Command } from "../../src/commands/define-command.ts";
import { listeningOf } from "../../src/conversation/listening.ts";
import { understand } from "../../src/conversation/understand.ts";
import { toWords } from "../../src/language/words.ts";
import { WAKE_WORD } from "../../src/speech/wake-word.ts";
import { evening } from "../support/runs.ts";
import { busyBench } from "../support/understand.ts";

/** What a sentence means to the busy bench: command and fields as one text; undefined for nothing. */
export function meaningOf(said: string, commands: readonly Command[]): string | undefined {
  const text = said.startsWith(WAKE_WORD) ? said.slice(WAKE_WORD.length).trim() : said;
  if (text === "") return undefined;
  const listening = listeningOf(busyBench.bench, evening);
  const choice = understand(toWords(text), commands, listening);
  return choice === undefined ? undefined : JSON.stringify([choice.command.name, choice.fields]);
}
