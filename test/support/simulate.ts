import { Readable } from "node:stream";
import { picturesIn } from "../../src/channels/console/pictures.ts";
import { readInstant } from "../../src/channels/console/read-instant.ts";
import { runSimulated } from "../../src/channels/console/script.ts";
import { openBench } from "../../src/open-bench.ts";

/** Runs script mode with JSON lines in this process, from opening the folder to letting go of it. */
export async function simulate(
  data: string,
  at: string,
  messages: readonly string[],
  pictures = picturesIn(data),
): Promise<readonly string[]> {
  const start = readInstant(at, "UTC");
  if (start === undefined) throw new Error(`"${at}" is no instant.`);
  const { keeper, notices, close } = await openBench({ data, zone: "Europe/Paris" });
  const lines: string[] = [];
  try {
    const input = Readable.from(messages.map((message) => `${message}\n`));
    const write = (text: string): void => void lines.push(text);
    await runSimulated({ keeper, input, write, json: true, who: "you", notices, pictures }, start);
  } finally {
    await close();
  }
  return lines;
}
