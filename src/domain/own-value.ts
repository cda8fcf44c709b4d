/**
 * What a table says of a word that somebody said; a word of the language itself ("constructor") is
 * in no table.
 */
export const ownValue = <T>(table: Readonly<Record<string, T>>, word: string): T | undefined =>
  Object.hasOwn(table, word) ? table[word] : undefined;
