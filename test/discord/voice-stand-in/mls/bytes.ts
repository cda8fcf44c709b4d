/** Bytes as MLS writes them (RFC 9420; what is used of it, from memory, held against davey's reading). */

export function uint(value: number | bigint, bytes: 1 | 2 | 4 | 8): Buffer {
  const made = Buffer.alloc(bytes);
  if (bytes === 8) made.writeBigUInt64BE(BigInt(value));
  else made.writeUIntBE(Number(value), 0, bytes);
  return made;
}

/** A vector with its length in front, in 1, 2 or 4 bytes ("Variable-Size Vector Length Headers"). */
export function vector(content: Uint8Array): Buffer {
  const { length } = content;
  const head =
    length < 0x40
      ? uint(length, 1)
      : length < 0x4000
        ? uint(0x4000 | length, 2)
        : uint(0x80000000 + length, 4);
  return Buffer.concat([head, content]);
}

/** Reads such bytes from the front. @throws RangeError where they end too early */
export class Reader {
  at = 0;
  readonly bytes: Buffer;
  constructor(bytes: Buffer) {
    this.bytes = bytes;
  }

  uint(bytes: 1 | 2 | 4): number {
    const value = this.bytes.readUIntBE(this.at, bytes);
    this.at += bytes;
    return value;
  }

  skip(count: number): void {
    this.at += count;
    if (this.at > this.bytes.length) throw new RangeError("MLS bytes end too early");
  }

  vector(): Buffer {
    const first = this.bytes.readUInt8(this.at);
    const size = ([1, 2, 4] as const)[first >> 6];
    if (size === undefined) throw new RangeError("No length of an MLS vector");
    const length = this.uint(size) & ([0x3f, 0x3fff, 0x3fffffff][first >> 6] ?? 0);
    const from = this.at;
    this.skip(length);
    return this.bytes.subarray(from, this.at);
  }
}
