/** A loudspeaker that plays nothing: one line for each change from silence to sound, with its instant. */
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
  if (now !== loud) process.stderr.write(`${now ? "sound" : "silence"} ${at}\n`);
  loud = now;
});
