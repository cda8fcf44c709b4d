/** Words in the place of a value which cannot be one: "1e309 ml", "3:75", "31 february". */
export type Unreadable = { readonly unreadable: string };

export const unreadable = (words: readonly string[], from: number, next: number): Unreadable => ({
  unreadable: words.slice(from, next).join(" "),
});

export const isUnreadable = (value: unknown): value is Unreadable =>
  typeof value === "object" && value !== null && "unreadable" in value;
