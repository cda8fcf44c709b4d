import { type DiscordParts, startDiscord } from "./start-discord.ts";

const signals = ["SIGINT", "SIGTERM"] as const;

/**
 * Keeps the benches in Discord until somebody ends the program. With a terminal the program ends
 * with it, and Discord's farewell is only told there; as a service it ends by a signal, or when
 * Discord will not have the bot back.
 *
 * @param runConsole  the console's own bench; resolves when its input has ended
 * @returns the exit code
 */
export async function runWithDiscord(
  parts: Omit<DiscordParts, "note">,
  runConsole: () => Promise<void>,
  isTerminal: boolean,
): Promise<number> {
  const note = (sentence: string): void => void process.stderr.write(`Discord: ${sentence}\n`);
  const asked = Promise.withResolvers<number>();
  // Listened to until the end: where nobody listens, the folder's lock ends the process by itself.
  const onSignal = (): void => asked.resolve(0);
  for (const name of signals) process.on(name, onSignal);
  const discord = await startDiscord({ ...parts, note });
  const console_ = runConsole();
  void discord.connected.then(() => note("connected."));
  const over = discord.over.then((why) => {
    note(why);
    return 1;
  });
  const ends = isTerminal ? [console_.then(() => 0), asked.promise] : [over, asked.promise];
  // A service has no input: that it ends, or fails, is no reason to stop.
  const failed = console_.then(() => new Promise<never>(() => undefined));
  const code = await Promise.race([...ends, failed]);
  await discord.close();
  return code;
}
