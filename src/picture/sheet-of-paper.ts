import { fontFamily, ink, type Look, paper, rule, soft } from "./look.ts";
import { element, escapeXml, fitText, wrapText } from "./svg.ts";
import type { Picture } from "./temperature-chart.ts";
import { line } from "./text-line.ts";

/** A piece of a picture, and how far down it reaches, px. */
export type Piece = { readonly drawn: string; readonly bottom: number };

/** One whole picture with its title and its words for those who do not see it. */
export function sheetOfPaper(
  look: Look,
  height: number,
  title: string,
  words: readonly string[],
  drawn: string,
): Picture {
  const svg = element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      width: look.width,
      height,
      viewBox: `0 0 ${look.width} ${height}`,
      "font-family": `'${fontFamily}', sans-serif`,
      role: "img",
    },
    element("title", {}, escapeXml(title)),
    element("desc", {}, escapeXml(words.join("\n"))),
    element("rect", { width: look.width, height, fill: paper }),
    drawn,
  );
  return { svg, width: look.width, height };
}

/** Lines of text one below the other, wrapped; `y` is the top. */
export function paragraph(
  texts: readonly string[],
  { x, y, width, size, weight = 400, fill = ink, most = 99 }: Paragraph,
): Piece {
  const lines = texts.flatMap((text) => wrapText(text, size, width));
  const shown = lines.slice(0, most);
  if (lines.length > most) {
    shown[most - 1] = fitText(`${shown[most - 1] ?? ""} …`, size, width);
  }
  const drawn = shown
    .map((text, index) => line(text, { x, y: y + size * (1 + index * 1.32), size, weight, fill }))
    .join("");
  return { drawn, bottom: y + shown.length * size * 1.32 };
}
type Paragraph = {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly size: number;
  readonly weight?: number;
  readonly fill?: string;
  readonly most?: number;
};

/** The name of what it shows, a line below it, and what must stand on it in white on black. */
export function heading(
  look: Look,
  title: string,
  below: readonly string[],
  marks: readonly string[],
): Piece {
  const width = look.width - look.margin * 2;
  const x = look.margin;
  const name = paragraph([title], {
    x,
    y: look.margin * 0.8,
    width,
    size: look.title,
    weight: 700,
    most: 3,
  });
  const under = paragraph(below, {
    x,
    y: name.bottom + look.small * 0.1,
    width,
    size: look.text,
    fill: soft,
  });
  let y = under.bottom + look.small * 0.4;
  const parts = [name.drawn, under.drawn];
  for (const mark of marks) {
    const box = inverted(mark, { x, y, width, size: look.text });
    parts.push(box.drawn);
    y = box.bottom + look.small * 0.5;
  }
  return { drawn: parts.join(""), bottom: y };
}

/** White letters on an ink ground. */
export function inverted(text: string, { x, y, width, size }: Omit<Paragraph, "weight">): Piece {
  const inside = paragraph([text], {
    x: x + size * 0.7,
    y: y + size * 0.35,
    width: width - size * 1.4,
    size,
    weight: 700,
    fill: paper,
  });
  const height = inside.bottom - y + size * 0.45;
  const ground = element("rect", { x, y, width, height, fill: ink });
  return { drawn: ground + inside.drawn, bottom: y + height };
}

/** The name of a part of the picture under a thin line. */
export function partName(look: Look, text: string, x: number, y: number, width: number): Piece {
  const rank = element("line", {
    x1: x,
    x2: x + width,
    y1: y,
    y2: y,
    stroke: rule,
    "stroke-width": 2,
  });
  const size = look.text;
  const name = line(text, { x, y: y + size * 1.35, size, weight: 700 });
  return { drawn: rank + name, bottom: y + size * 1.7 };
}
