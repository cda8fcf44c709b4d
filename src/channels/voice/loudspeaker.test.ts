import { expect, test } from "vitest";
import { openLoudspeaker } from "./loudspeaker.ts";

const form = { rate: 16_000, channels: 1 };
const now = (): number => performance.now();
/** Tells by its end how much of what it was given was no silence. */
const counting = `
let loud = 0;
process.stdin.on("data", (piece) => {
  for (let at = 0; at + 1 < piece.length; at += 2) if (piece.readInt16LE(at) !== 0) loud += 1;
  if (loud >= 3200) process.exit(0);
});`;

test("what is played reaches the player, between silences", async () => {
  const heard = Promise.withResolvers<string>();
  const speaker = openLoudspeaker({
    device: { command: [process.execPath, "-e", counting], form },
    volume: () => 1,
    now,
    fault: (line) => heard.resolve(line),
  });
  speaker.play(new Int16Array(3200).fill(1000), false);
  expect(speaker.speaking()).toBe(true);
  // The stand-in ends once it has all of it: a player that ends is begun again, and says so.
  expect(await heard.promise).toContain("stopped");
  speaker.stop();
});

test("a player that is not there is given up after a few tries, and playing harms nothing", async () => {
  const gone = Promise.withResolvers<string>();
  const speaker = openLoudspeaker({
    device: { command: ["./no-such-player"], form },
    volume: () => 1,
    now,
    fault: (line, over) => {
      if (over) gone.resolve(line);
    },
  });
  speaker.play(new Int16Array(320), true);
  expect(await gone.promise).toContain("no-such-player");
  speaker.play(new Int16Array(320), true);
  speaker.stop();
});
