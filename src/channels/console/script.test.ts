import { Readable } from "node:stream";
import { expect, test } from "vitest";
import { fillingStore } from "../../../test/support/filling-store.ts";
import { loadCommands } from "../../commands/registry.ts";
import { BenchKeeper } from "../../conversation/bench-keeper.ts";
import { instant } from "../../domain/units/quantity.ts";
import { runSimulated } from "./script.ts";

const commands = await loadCommands();

/** What is printed for these lines, and what the disk holds; "full" fills the disk, "room" frees it. */
async function script(...lines: readonly string[]): Promise<string> {
  const { store, fill } = fillingStore();
  const { keeper } = await BenchKeeper.open("t", { zone: "Europe/Lisbon" }, store, commands);
  let printed = "";
  async function* typed(): AsyncGenerator<string> {
    for (const line of lines) {
      if (line !== "full" && line !== "room") yield `${line}\n`;
      // The line before is answered by then.
      for (let turn = 0; turn < 20; turn += 1) await new Promise((soon) => setImmediate(soon));
      if (line === "full" || line === "room") fill(line === "full");
    }
  }
  const write = (text: string): void => {
    printed += text;
  };
  const pictures = { drawn: async (reply: never) => reply };
  const parts = { keeper, input: Readable.from(typed()), write, json: false, who: "Ines" };
  const start = instant(Date.UTC(2026, 10, 28, 19, 30));
  await runSimulated({ ...parts, notices: [], pictures }, start);
  return printed;
}

test("a step over a full disk gives every cue at its own instant, as in real time, and none again", async () => {
  const run = ["start developer for 4 minutes tank north", "@+31s", "in"];
  const quiet = await script(...run, "@+5m", "left");
  const told = await script(...run, "full", "@+5m", "room", "left");
  const cues = (text: string) => text.split("\n").filter((line) => line.startsWith(">> "));
  expect(cues(quiet)).toContain(">> North: pour out now.");
  expect(cues(told)).toEqual(cues(quiet));
  expect(told).not.toMatch(/not told in time|Late/);
  expect(told).toContain("The disk is full.");
});
