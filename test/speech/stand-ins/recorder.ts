import { readFileSync } from "node:fs";

/**
 * A microphone that plays a file of raw samples at the speed of sound cards, over and over:
 * recorder.ts FILE [bytes a second]. The word "broken" instead of a file ends it at once.
 */
const [, , file = "", rate = "32000"] = process.argv;
if (file === "broken") {
  process.stderr.write("no such device\n");
  process.exit(1);
}
const sound = readFileSync(file);
const perMs = Number(rate) / 1000;
const start = performance.now();
let at = 0;
setInterval(() => {
  const until = Math.floor((performance.now() - start) / 20) * 20 * perMs;
  while (at < until) {
    const next = at + 20 * perMs;
    const piece = Buffer.alloc(20 * perMs);
    const from = sound.length === 0 ? 0 : at % sound.length;
    sound.copy(piece, 0, from, from + 20 * perMs);
    process.stdout.write(piece);
    at = next;
  }
}, 5);
