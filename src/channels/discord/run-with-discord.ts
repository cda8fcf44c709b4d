import { type DiscordParts, startDiscord } from "./start-discord.ts";

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
  const discord = await startDiscord({ ...parts, note });
  const console_ = runConsole();
  const signal = new Promise<number>((done) => {
    for (const name of ["SIGINT", "SIGTERM"] as const) process.once(name, () => done(0));
  });
  void discord.connected.then(() => note("connected."));
  const over = discord.over.then((why) => {
    note(why);
    return 1;
  });
  const ends = isTerminal ? [console_.then(() => 0), signal] : [over, signal];
  // A service has no input: that it ends, or fails, is no reason to stop.
  const failed = console_.then(() => new Promise<never>(() => undefined));
  const code = await Promise.race([...ends, failed]);
  await discord.close();
  return code;
}
