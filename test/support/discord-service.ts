import { expect } from "vitest";
import { type StandIn, startStandIn } from "../discord/stand-in/start.ts";
import { startProgram } from "./program.ts";

export const TOKEN = "an-invented-token.for-tests";

const HERE = ["ViewChannel", "SendMessages", "ReadMessageHistory"] as const;

export type DiscordService = {
  readonly standIn: StandIn;
  readonly program: Awaited<ReturnType<typeof startProgram>>;
  /** What somebody says at the bench, and what is answered to them; "" where that failed. */
  say(sentence: string): Promise<string>;
  /** What was posted in the bench's channel, in order. */
  posts(): readonly string[];
};

/** Waits in real time, for as long as a busy machine may need. */
export async function until(is: () => boolean): Promise<void> {
  for (let turn = 0; turn < 1000 && !is(); turn += 1) {
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  expect(is()).toBe(true);
}

/** The program as a service in real time, with a bench in a private channel; killed at the end. */
export async function withDiscordService(
  data: string,
  play: (service: DiscordService) => Promise<void>,
  token = TOKEN,
): Promise<void> {
  const standIn = await startStandIn({ pace: 0.02 });
  try {
    standIn.application({ token });
    const club = standIn.guild({
      name: "Film club",
      channels: [
        {
          name: "wet-bench",
          overwrites: [
            { for: "@everyone", deny: ["ViewChannel"] },
            { for: "bot", allow: HERE },
            { for: "Ines", allow: HERE },
          ],
        },
      ],
      members: [{ name: "Ines", owner: true }],
    });
    const ines = club.member("Ines");
    const program = await startProgram([], "start", {
      DISCORD_TOKEN: token,
      DISCORD_API: standIn.apiUrl,
      WETSIDE_DATA: data,
    });
    try {
      program.closeInput();
      await until(() => program.complaint().includes("Discord: connected."));
      const opened = ines.slash("wetside open", { channel: "wet-bench" });
      await until(() => opened.responses.length > 0);
      await play({
        standIn,
        program,
        say: async (sentence) => {
          const said = ines.slash("say", { channel: "wet-bench", options: { sentence } });
          await until(() => said.responses.length > 0 || said.failed);
          return said.content;
        },
        posts: () => club.channel("wet-bench").messages.map(({ content }) => content),
      });
    } finally {
      await program.kill();
    }
  } finally {
    await standIn.close();
  }
}
