const SIGNATURE = Buffer.from("89504e470d0a1a0a", "hex");
const FIRST = Buffer.from("\0\0\0\rIHDR", "latin1");
const END = Buffer.from("IEND");
/** Ours are some thousand pixels each way at most. */
const WIDEST = 32_768;

/** Whether a file is a picture as we draw them, by what is in it and not by its name alone. */
export const isPicture = (name: string, bytes: Buffer): boolean =>
  name.endsWith(".svg") ? isOurSvg(bytes) : isPng(bytes);

/** The signature, then the header with width and height, and the end: PNG (ISO/IEC 15948) 5.2, 5.6. */
function isPng(bytes: Buffer): boolean {
  if (bytes.length < 57) return false;
  if (!bytes.subarray(0, 8).equals(SIGNATURE) || !bytes.subarray(8, 16).equals(FIRST)) return false;
  const sides = [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
  if (sides.some((side) => side === 0 || side > WIDEST)) return false;
  return bytes.subarray(-8, -4).equals(END);
}

const ROOT = /^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"[ >]/;
/** A tag with attributes in double quotes, or text between tags. */
const PIECE = /<(?:\/([a-z]+)|([a-z]+)((?: [a-zA-Z][a-zA-Z0-9-]*="[^"<>]*")*)\/?)>|[^<>]+/y;
const ELEMENTS: ReadonlySet<string> = new Set(
  "svg title desc g rect line circle polygon path text".split(" "),
);
/** What could run, or fetch something from elsewhere. */
const ACTIVE = / (?:on[a-z]*|href|src|style)=|url\(|(?:java|vb)script:|data:/i;

/** SVG that holds shapes and words and nothing else, as `src/picture` writes it. */
function isOurSvg(bytes: Buffer): boolean {
  const text = bytes.toString();
  if (!ROOT.test(text) || !text.endsWith("</svg>")) return false;
  let at = 0;
  while (at < text.length) {
    PIECE.lastIndex = at;
    const found = PIECE.exec(text);
    if (found === null) return false;
    const [whole, closed, begun, attributes = ""] = found;
    const name = closed ?? begun;
    if (name !== undefined && !ELEMENTS.has(name)) return false;
    if (ACTIVE.test(attributes)) return false;
    at += whole.length;
  }
  return true;
}
