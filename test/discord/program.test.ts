import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { withFolder } from "../support/child.ts";
import { runProgram, startProgram } from "../support/program.ts";
import { type StandIn, startStandIn } from "./stand-in/start.ts";

const TOKEN = "an-invented-token.for-tests";
const PRIVATE = [
  { for: "@everyone", deny: ["ViewChannel"] },
  { for: "bot", allow: ["ViewChannel", "SendMessages", "ReadMessageHistory", "AttachFiles"] },
  { for: "Ines", allow: ["ViewChannel", "SendMessages"] },
] as const;

async function withStandIn(play: (standIn: StandIn, data: string) => Promise<void>): Promise<void> {
  await withFolder(async (data) => {
    const standIn = await startStandIn({ pace: 0.02 });
    try {
      await play(standIn, data);
    } finally {
      await standIn.close();
    }
  });
}

const environment = (standIn: StandIn, data: string): Record<string, string> => ({
  DISCORD_TOKEN: TOKEN,
  DISCORD_API: standIn.apiUrl,
  WETSIDE_DATA: data,
});

/** Waits in real time, for as long as a busy machine may need. */
async function until(is: () => boolean): Promise<void> {
  for (let turn = 0; turn < 1000 && !is(); turn += 1) {
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  expect(is()).toBe(true);
}

/** Every file of a folder, as one text. */
async function allText(folder: string): Promise<string> {
  const names = await readdir(folder, { recursive: true, withFileTypes: true });
  const files = names.filter((one) => one.isFile());
  const texts = files.map((one) => readFile(join(one.parentPath, one.name), "utf8"));
  return (await Promise.all(texts)).join("\n");
}

test("npm start with a token: the same program in the terminal and in Discord, its input closed", () =>
  withStandIn(async (standIn, data) => {
    const app = standIn.application({ token: TOKEN });
    const club = standIn.guild({
      name: "Film club",
      channels: [{ name: "wet-bench", overwrites: PRIVATE }],
      members: [{ name: "Ines", owner: true }],
    });
    const ines = club.member("Ines");
    const program = await startProgram([], "start", environment(standIn, data));
    try {
      program.say("how much water for 500 ml at 1+9");
      await program.until((lines) => lines.join("\n").includes("450 mL"));
      // Before that, what is said is not heard.
      await until(() => program.complaint().includes("Discord: connected."));
      expect(app.registrations).toHaveLength(1);
      const opened = ines.slash("wetside open", { channel: "wet-bench" });
      await until(() => opened.content !== "");
      const asked = ines.slash("say", {
        channel: "wet-bench",
        options: { sentence: "how much water for 500 ml at 1+9" },
      });
      await until(() => asked.content !== "");
      expect(asked.content).toContain("450 mL");
      program.closeInput();
      await standIn.settled();
      const after = ines.slash("left", { channel: "wet-bench" });
      await until(() => after.content !== "");
      expect(after.content).toContain("No clock is running");
      expect(await allText(data)).not.toContain(TOKEN);
      expect(standIn.violations).toEqual([]);
    } finally {
      const ended = await program.terminate();
      expect(ended.code).toBe(0);
      expect(ended.complaint).toContain("Discord: connected.");
      expect(ended.complaint + ended.output).not.toContain(TOKEN);
    }
  }));

test("a token that is not accepted ends a service with what to mend and exit code 1", () =>
  withStandIn(async (standIn, data) => {
    standIn.application({ token: "another" });
    const ended = await runProgram([], [], "start", environment(standIn, data));
    expect(ended.code).toBe(1);
    expect(ended.complaint).toContain("Discord does not accept DISCORD_TOKEN");
    expect(ended.complaint).not.toContain(TOKEN);
  }));

test("asked to end while its input is still open, it ends at once and in order", () =>
  withStandIn(async (standIn, data) => {
    standIn.application({ token: TOKEN });
    const program = await startProgram([], "start", environment(standIn, data));
    await until(() => standIn.socket.count() === 1);
    expect(await program.terminate()).toMatchObject({ code: 0 });
    expect(standIn.violations).toEqual([]);
  }));

test("a setting that is wrong is told in a sentence", () =>
  withFolder(async (data) => {
    const ended = await runProgram([], [], "start", {
      DISCORD_TOKEN: TOKEN,
      DISCORD_API: "nowhere",
      WETSIDE_DATA: data,
    });
    expect(ended).toMatchObject({ code: 1, output: "" });
    expect(ended.complaint).toContain("DISCORD_API is an address");
  }));
