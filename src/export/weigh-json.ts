/** What JSON would make in memory, found without making any of it. */
export type Weight = {
  /** At least as many values as it holds, keys not counted. */
  readonly values: number;
  /** Lists and objects within each other. */
  readonly depth: number;
};

const [QUOTE, BACKSLASH, COMMA] = [0x22, 0x5c, 0x2c];
const [LIST, LIST_END, OBJECT, OBJECT_END] = [0x5b, 0x5d, 0x7b, 0x7d];

/**
 * Weighs JSON before it is parsed: a megabyte of text can be a few long notes, or a million empty
 * lists that take a hundred times its size. Text that is no JSON is weighed as well.
 */
export function weighJson(bytes: Uint8Array): Weight {
  let values = 1;
  let open = 0;
  let depth = 0;
  let quoted = false;
  for (let at = 0; at < bytes.length; at += 1) {
    const byte = bytes[at];
    if (quoted) {
      if (byte === BACKSLASH) at += 1;
      else if (byte === QUOTE) quoted = false;
    } else if (byte === QUOTE) quoted = true;
    else if (byte === COMMA) values += 1;
    else if (byte === LIST || byte === OBJECT) {
      values += 1;
      open += 1;
      if (open > depth) depth = open;
    } else if (byte === LIST_END || byte === OBJECT_END) open -= 1;
  }
  return { values, depth };
}
