/**
 * Throws unless a value comes back from JSON as it went in: a NaN, a Map or a hole in a list is our
 * bug, and must be caught before it is on disk.
 */
export function checkPlain(value: unknown, place = "value"): void {
  switch (typeof value) {
    case "string":
    case "boolean":
      return;
    case "number":
      if (Number.isFinite(value)) return;
      break;
    case "object":
      if (value === null) return;
      if (Array.isArray(value)) {
        // By index, since forEach would step over a hole.
        for (let at = 0; at < value.length; at += 1) checkPlain(value[at], `${place}[${at}]`);
        return;
      }
      if (isPlainObject(value)) {
        for (const [key, inner] of Object.entries(value)) {
          if (inner !== undefined) checkPlain(inner, `${place}.${key}`);
        }
        return;
      }
      break;
  }
  throw new TypeError(`${place} cannot be stored: ${String(value)}`);
}

function isPlainObject(value: object): boolean {
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}
