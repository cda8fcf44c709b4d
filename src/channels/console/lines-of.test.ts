import { PassThrough, Readable } from "node:stream";
import fc from "fast-check";
import { expect, test } from "vitest";
import { linesOf, MOST_HELD } from "./lines-of.ts";

async function read(...pieces: readonly Uint8Array[]): Promise<readonly string[]> {
  const lines: string[] = [];
  for await (const line of linesOf(Readable.from(pieces, { objectMode: false }))) lines.push(line);
  return lines;
}

test.each([
  { text: "one\ntwo\n", lines: ["one", "two"] },
  { text: "one\r\ntwo\rthree", lines: ["one", "two", "three"] },
  { text: "\n\nlast", lines: ["", "", "last"] },
  { text: "37.8 °C, ½ litre\n", lines: ["37.8 °C, ½ litre"] },
  { text: "", lines: [] },
])("$text", async ({ text, lines }) => {
  expect(await read(Buffer.from(text))).toEqual(lines);
  expect(await read(...[...Buffer.from(text)].map((byte) => Buffer.from([byte])))).toEqual(lines);
});

test("a line that goes on and on is cut off, and the line after it is whole", async () => {
  const lines = await read(
    Buffer.from("left\n"),
    ...Array.from({ length: 40 }, () => Buffer.alloc(MOST_HELD / 4, "x")),
    Buffer.from("\nagain\n"),
  );
  expect(lines.map(({ length }) => length)).toEqual([4, MOST_HELD, 5]);
  expect(lines.at(-1)).toBe("again");
});

test("wherever the pieces are cut, the lines are the same", async () => {
  const text = fc.string({ unit: fc.constantFrom("a", "é", " ", "\n", "\r\n"), maxLength: 60 });
  const law = fc.asyncProperty(text, fc.array(fc.nat(20)), async (said, cuts) => {
    const bytes = Buffer.from(said);
    const pieces: Buffer[] = [];
    let from = 0;
    for (const cut of cuts) {
      if (cut > 0) pieces.push(bytes.subarray(from, from + cut));
      from += cut;
    }
    pieces.push(bytes.subarray(from));
    const given = pieces.filter(({ length }) => length > 0);
    expect(await read(...given)).toEqual(await read(bytes));
  });
  await fc.assert(law, { numRuns: 50 });
});

test("asked to leave, it lets go of its input", async () => {
  const input = new PassThrough();
  const stop = new AbortController();
  const lines = linesOf(input, stop.signal);
  setImmediate(() => input.write("left\n"));
  for await (const line of lines) {
    expect(line).toBe("left");
    stop.abort();
  }
  expect(input.isPaused()).toBe(true);
  expect(input.listenerCount("data")).toBe(0);
});
