import { StoreError } from "./store-error.ts";

const LONGEST = 120;
/** Names that some systems keep for devices. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)$/;

const spellOut = (byte: number): string => `~${byte.toString(16).padStart(2, "0")}`;

/**
 * A file name for any id, one to one, with nothing in it that a system may read in its own way:
 * small letters, digits, `-` and `_` stay, every other byte becomes `~` and two hexadecimal
 * digits. Capitals are written out too, since some disks take "a" and "A" for one.
 */
export function fileNameOf(id: string): string {
  const bytes = new TextEncoder().encode(id);
  let name = "";
  for (const byte of bytes) {
    const letter = String.fromCharCode(byte);
    name += /[a-z0-9_-]/.test(letter) ? letter : spellOut(byte);
  }
  if (RESERVED.test(name)) name = spellOut(name.charCodeAt(0)) + name.slice(1);
  if (name === "" || name.length > LONGEST || !id.isWellFormed()) {
    throw new StoreError("bad-name", "That name cannot be kept: use 1 to 40 letters or digits.");
  }
  return name;
}

/** The id a file name was made from; undefined for files that are not ours. */
export function idOf(name: string): string | undefined {
  const bytes: number[] = [];
  for (const [piece] of name.matchAll(/~[0-9a-f]{2}|./gs)) {
    bytes.push(piece.length === 3 ? Number.parseInt(piece.slice(1), 16) : piece.charCodeAt(0));
  }
  try {
    const id = new TextDecoder("utf-8", { fatal: true }).decode(Uint8Array.from(bytes));
    return fileNameOf(id) === name ? id : undefined;
  } catch {
    return undefined;
  }
}
