/** Nothing a bench holds is nested any deeper, by far. */
const DEEPEST = 64;

/**
 * Whether something read from outside is nested deeper than anything of ours. Whoever looks into a
 * value by calling itself would run out of room in it.
 */
export function isDeep(value: unknown, left = DEEPEST): boolean {
  if (typeof value !== "object" || value === null) return false;
  if (left === 0) return true;
  for (const inner of Object.values(value)) if (isDeep(inner, left - 1)) return true;
  return false;
}
