/** Breaks long lines between words; what is left over stands under the first word of its line. */
export function wrap(text: string, columns: number): string {
  return text
    .split("\n")
    .flatMap((line) => wrapLine(line, columns))
    .join("\n");
}

function wrapLine(line: string, columns: number): readonly string[] {
  if (line.length <= columns) return [line];
  const indent = /^\s*(?:(?:>>|--|[?!])\s)?/.exec(line)?.[0] ?? "";
  const hang = " ".repeat(Math.min(indent.length, Math.floor(columns / 2)));
  const lines: string[] = [];
  let current = indent;
  let empty = true;
  for (const word of line.slice(indent.length).split(" ")) {
    const longer = empty ? current + word : `${current} ${word}`;
    if (longer.length <= columns || empty) {
      current = longer;
      empty = false;
    } else {
      lines.push(current.trimEnd());
      current = hang + word;
    }
  }
  lines.push(current.trimEnd());
  return lines;
}
