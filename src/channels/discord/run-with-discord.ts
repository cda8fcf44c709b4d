import type { Log } from "../../log/log.ts";
import { aborted } from "../../platform/stop-signals.ts";
import { type DiscordParts, startDiscord } from "./start-discord.ts";

/**
 * Keeps the benches in Discord until somebody ends the program. With a terminal the program ends
 * with it, and Discord's farewell is only told there; as a service it ends when it is asked to, or
 * when Discord will not have the bot back.
 *
 * @param runConsole  the console's own bench; resolves when its input has ended
 * @returns the exit code
 */
export async function runWithDiscord(
  parts: Omit<DiscordParts, "note"> & { readonly log: Log; readonly stop: AbortSignal },
  runConsole: () => Promise<void>,
  isTerminal: boolean,
): Promise<number> {
  const note: DiscordParts["note"] = (sentence, level = "info") =>
    parts.log(level, `Discord: ${sentence}`);
  const discord = await startDiscord({ ...parts, note });
  const console_ = runConsole();
  void discord.connected.then(() => note("connected."));
  const over = discord.over.then((why) => {
    note(why, "error");
    return 1;
  });
  const asked = aborted(parts.stop).then(() => 0);
  const ends = isTerminal ? [console_.then(() => 0), asked] : [over, asked];
  // A service has no input: that it ends, or fails, is no reason to stop.
  const failed = console_.then(() => new Promise<never>(() => undefined));
  const code = await Promise.race([...ends, failed]);
  await discord.sayFarewell();
  await discord.close();
  return code;
}
