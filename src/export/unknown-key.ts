/**
 * A key that stands in something stored and not in what its schema made of it: nobody of ours
 * wrote it, and taking the rest would lose it without a word.
 *
 * @returns its path with dots, or undefined where there is none
 */
export function unknownKey(stored: unknown, parsed: unknown): string | undefined {
  if (!isObject(stored) || !isObject(parsed)) return undefined;
  for (const key of Object.keys(stored)) {
    if (!Object.hasOwn(parsed, key)) return Array.isArray(parsed) ? undefined : key;
    const inner = unknownKey(stored[key], parsed[key]);
    if (inner !== undefined) return `${key}.${inner}`;
  }
  return undefined;
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null;
