import type { z } from "zod";

/**
 * Whether a value is one that a schema reads, told from what has changed since a value that is
 * known to be one: parts that are the same by reference are not looked into again. A bench with
 * years of runs is then checked in the time its change takes.
 *
 * @param known  a value that fits, or undefined where there is none yet
 * @returns where it does not fit, or undefined where it does
 */
export function misfit(schema: z.ZodType, next: unknown, known: unknown): Misfit | undefined {
  return look(schema, next, known, []);
}

export type Misfit = { readonly place: string; readonly cause: z.ZodError };

type Path = readonly (string | number)[];
type Fields = Readonly<Record<string, unknown>>;

/** Kinds of schema this looks into; every other one is asked itself. */
type Definition = {
  readonly type: string;
  readonly checks?: readonly unknown[];
  readonly shape?: Readonly<Record<string, z.ZodType>>;
  readonly catchall?: z.ZodType;
  readonly element?: z.ZodType;
  readonly keyType?: z.ZodType;
  readonly valueType?: z.ZodType;
  readonly innerType?: z.ZodType;
};

function look(schema: z.ZodType, next: unknown, known: unknown, path: Path): Misfit | undefined {
  if (Object.is(next, known) && known !== undefined) return undefined;
  const def = schema.def as Definition;
  // What is demanded of the whole can only be asked of the whole.
  if ((def.checks?.length ?? 0) > 0) return ask(schema, next, path);
  const { shape, element, keyType, valueType, innerType } = def;
  if (def.type === "object" && shape !== undefined && def.catchall === undefined) {
    if (!isFields(next)) return ask(schema, next, path);
    const before = isFields(known) ? known : {};
    for (const key in shape) {
      const wrong = look(shape[key] as z.ZodType, own(next, key), own(before, key), [...path, key]);
      if (wrong !== undefined) return wrong;
    }
    return undefined;
  }
  if (def.type === "array" && element !== undefined && Array.isArray(next)) {
    const before: readonly unknown[] = Array.isArray(known) ? known : [];
    const seen = new Set(before);
    for (let at = 0; at < next.length; at += 1) {
      const item: unknown = next[at];
      if (typeof item === "object" && item !== null && seen.has(item)) continue;
      const wrong = look(element, item, before[at], [...path, at]);
      if (wrong !== undefined) return wrong;
    }
    return undefined;
  }
  if (def.type === "record" && keyType?.def.type === "string" && valueType && isFields(next)) {
    if ((keyType.def as Definition).checks?.length) return ask(schema, next, path);
    const before = isFields(known) ? known : {};
    for (const key of Object.keys(next)) {
      const wrong = look(valueType, next[key], own(before, key), [...path, key]);
      if (wrong !== undefined) return wrong;
    }
    return undefined;
  }
  if ((def.type === "optional" || def.type === "default") && innerType !== undefined) {
    return next === undefined ? undefined : look(innerType, next, known, path);
  }
  if (def.type === "readonly" && innerType !== undefined) return look(innerType, next, known, path);
  return ask(schema, next, path);
}

function ask(schema: z.ZodType, value: unknown, path: Path): Misfit | undefined {
  const parsed = schema.safeParse(value);
  if (parsed.success) return undefined;
  const place = [...path, ...(parsed.error.issues[0]?.path ?? [])].map(String).join(".");
  return { place, cause: parsed.error };
}

const isFields = (value: unknown): value is Fields => {
  if (typeof value !== "object" || value === null) return false;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
};

const own = (fields: Fields, key: string): unknown =>
  Object.hasOwn(fields, key) ? fields[key] : undefined;
