import type { SlashOption } from "../words/read-interaction.ts";

/** "member add" and its options, however deep they lie. */
export function wordOf(
  options: readonly SlashOption[],
  path: readonly string[] = [],
): { readonly word: string; readonly options: Readonly<Record<string, unknown>> } {
  const [first] = options;
  if (first?.options !== undefined && first.value === undefined) {
    return wordOf(first.options, [...path, first.name]);
  }
  if (path.length === 0 && first !== undefined && first.value === undefined) {
    return { word: first.name, options: {} };
  }
  return {
    word: path.join(" "),
    options: Object.fromEntries(options.map(({ name, value }) => [name, value])),
  };
}
