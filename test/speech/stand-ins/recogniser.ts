/**
 * A recogniser of the kind a user can plug in, for tests: it hears nothing, but tells the length of
 * the sound in its words. It answers "slow" late never, and rubbish before its answer.
 */
let held: Buffer = Buffer.alloc(0);
let wanted: { utterance: number; bytes: number } | undefined;
let words = 0;

process.stdin.on("data", (piece: Buffer) => {
  held = Buffer.concat([held, piece]);
  for (;;) {
    if (wanted !== undefined) {
      if (held.length < wanted.bytes) return;
      const samples = wanted.bytes / 2;
      const text = samples > 20_000 ? "How Old Is Acorn" : "";
      held = held.subarray(wanted.bytes);
      process.stdout.write("loading, please wait\n");
      process.stdout.write(
        `${JSON.stringify({ utterance: wanted.utterance, text, certainty: words > 2 ? 0.9 : 0.1 })}\n`,
      );
      wanted = undefined;
      continue;
    }
    const end = held.indexOf("\n");
    if (end < 0) return;
    const line = JSON.parse(held.subarray(0, end).toString());
    held = held.subarray(end + 1);
    if (line.kind === "words") words = line.words.length;
    else wanted = line;
  }
});
