import { PNG } from "pngjs";

/** A PNG of one line, as wide as there are bytes, each its grey. */
export function smallPng(greys: Uint8Array): Buffer {
  const picture = new PNG({ width: Math.max(1, greys.length), height: 1 });
  for (const [at, grey] of greys.entries()) picture.data.set([grey, grey, grey, 255], at * 4);
  return PNG.sync.write(picture);
}

/** An SVG of one word. */
export const smallSvg = (word: string): Buffer =>
  Buffer.from(
    `<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><text>${word}</text></svg>`,
  );
