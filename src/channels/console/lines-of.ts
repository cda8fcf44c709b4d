import { createInterface, type Interface } from "node:readline";
import { Transform } from "node:stream";

/** So much is held of a line, bytes: far more than any that is taken. The rest is thrown away. */
export const MOST_HELD = 64 * 1024;

const NEWLINE = 10;
const RETURN = 13;

/**
 * The lines of an input, of which none is held beyond `MOST_HELD`: what is longer comes cut off, to
 * be refused for its length.
 *
 * @param signal  closes it; what is still to come is not read then
 */
export function linesOf(input: NodeJS.ReadableStream, signal?: AbortSignal): Interface {
  const bounded = cutLines();
  const lines = createInterface({
    input: input.pipe(bounded),
    crlfDelay: Number.POSITIVE_INFINITY,
    ...(signal === undefined ? {} : { signal }),
  });
  input.once("error", (error) => bounded.destroy(error));
  return lines.once("close", () => {
    input.unpipe(bounded);
    input.pause();
  });
}

/** Passes bytes on, of each line `MOST_HELD` at most. */
function cutLines(): Transform {
  let held = 0;
  return new Transform({
    transform(chunk: Buffer, _, done) {
      let from = 0;
      while (from < chunk.length) {
        const end = endOfLine(chunk, from);
        const to = Math.min(end, from + MOST_HELD - held);
        this.push(chunk.subarray(from, to));
        held += to - from;
        if (end < chunk.length) {
          this.push(chunk.subarray(end, end + 1));
          held = 0;
        }
        from = end + 1;
      }
      done();
    },
  });
}

/** Where the line that goes on at `from` ends in this piece: its newline or return, or the piece's end. */
function endOfLine(chunk: Buffer, from: number): number {
  let end = from;
  while (end < chunk.length && chunk[end] !== NEWLINE && chunk[end] !== RETURN) end += 1;
  return end;
}
