import { letterWidth } from "./letter-width.ts";

/** Attributes of one element; numbers are rounded to a tenth of a pixel. */
export type Attributes = { readonly [name: string]: string | number | undefined };

const entities: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&apos;",
};

/** Text as XML may hold it: names come from people, and XML 1.0 has no control characters. */
export const escapeXml = (text: string): string =>
  text
    .toWellFormed()
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, "")
    .replace(/[&<>"']/g, (character) => entities[character] ?? character);

const shown = (value: string | number): string =>
  typeof value === "number" ? String(Math.round(value * 10) / 10) : escapeXml(value);

export function element(
  name: string,
  attributes: Attributes,
  ...inside: readonly string[]
): string {
  const written = Object.entries(attributes)
    .flatMap(([key, value]) => (value === undefined ? [] : [` ${key}="${shown(value)}"`]))
    .join("");
  return inside.length === 0
    ? `<${name}${written}/>`
    : `<${name}${written}>${inside.join("")}</${name}>`;
}

/** A place on the picture, px. */
export type Box = {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
};

export const overlap = (one: Box, other: Box): boolean =>
  one.x < other.x + other.w &&
  other.x < one.x + one.w &&
  one.y < other.y + other.h &&
  other.y < one.y + one.h;

/** Width of a line of text, px; never less than it is drawn. */
export function textWidth(text: string, size: number): number {
  let width = 0;
  for (const letter of text) width += letterWidth(letter);
  return width * size;
}

/** Cuts a line so that it fits, with an ellipsis. */
export function fitText(text: string, size: number, width: number): string {
  if (textWidth(text, size) <= width) return text;
  const characters = [...text];
  while (characters.length > 1 && textWidth(`${characters.join("")}…`, size) > width) {
    characters.pop();
  }
  return `${characters.join("")}…`;
}

/** Breaks words into lines that fit. */
export function wrapText(text: string, size: number, width: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`, size) <= width) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(fitText(word, size, width));
  }
  return lines;
}
