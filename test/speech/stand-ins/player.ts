import { appendFileSync } from "node:fs";

/**
 * A loudspeaker that plays nothing: player.ts [FILE]. For each change from silence to sound it adds
 * a line to the file, with its instant in ms since the epoch.
 */
const [, , file] = process.argv;
let loud = false;
let odd: Buffer = Buffer.alloc(0);
process.stdin.on("data", (piece: Buffer) => {
  const at = performance.timeOrigin + performance.now();
  const all = Buffer.concat([odd, piece]);
  const even = all.length - (all.length % 2);
  odd = all.subarray(even);
  let peak = 0;
  for (let from = 0; from < even; from += 2) peak = Math.max(peak, Math.abs(all.readInt16LE(from)));
  const now = peak > 300;
  if (now && !loud && file !== undefined) appendFileSync(file, `${at}\n`);
  loud = now;
});
