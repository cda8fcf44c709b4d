import type { core, z } from "zod";
import type { Change } from "../domain/changes.ts";
import { ofEachAlone } from "../domain/units/stored.ts";

/**
 * Whether a value that fitted its schema still fits after some changes. Only what changed is looked
 * at, so a large bench costs no more than a small one: the schema is followed along the path of
 * each change as far as one part of it can be judged alone.
 *
 * @param data  the value after the changes
 * @returns where it does not fit, as a path with dots, and why; undefined where all is well
 */
export function misfit(
  schema: z.ZodType,
  data: unknown,
  changes: readonly Change[],
): { readonly place: string; readonly error: z.ZodError } | undefined {
  // Of one part that is judged as a whole there may be hundreds of changes.
  const judged = new Map<unknown, z.ZodType>();
  for (const change of changes) {
    for (const { part, value, path } of partsToCheck(schema, data, change)) {
      if (judged.get(value) === part) continue;
      if (typeof value === "object" && value !== null) judged.set(value, part);
      const parsed = part.safeParse(value);
      if (parsed.success) continue;
      const inner = parsed.error.issues[0]?.path ?? [];
      return { place: [...path, ...inner].join("."), error: parsed.error };
    }
  }
  return undefined;
}

type Part = {
  readonly part: z.ZodType;
  readonly value: unknown;
  readonly path: readonly PropertyKey[];
};

function partsToCheck(schema: z.ZodType, data: unknown, change: Change): readonly Part[] {
  const { path, kind } = change;
  const alone: Part[] = [];
  let part = schema;
  let value = data;
  for (let depth = 0; ; depth += 1) {
    part = bare(part);
    const here = { part, value, path: path.slice(0, depth) };
    const step = path[depth];
    if (isWhole(part) && !(step !== undefined && ofEachAlone.has(part))) return [...alone, here];
    if (step === undefined) {
      return [...alone, ...(kind === "push" ? pushed(here, change.items) : [here])];
    }
    const inner = partAt(part, step);
    if (inner === undefined) return [...alone, here];
    const isLast = depth === path.length - 1;
    if (isLast && kind === "drop") {
      const dropped = { part: inner, value: undefined, path };
      return [...alone, ...(defOf(part).type === "record" ? [] : [dropped])];
    }
    value = Object.getOwnPropertyDescriptor(value, step)?.value;
    // Its rule is about an entry's key and its id: no other change can break it.
    const ofId = depth === path.length - 2 && path.at(-1) === "id";
    if (isWhole(part) && (isLast || ofId)) {
      alone.push({ part, value: { [step]: value }, path: here.path });
    }
    part = inner;
  }
}

/** The items that came to a list, one by one. */
function pushed(list: Part, items: readonly unknown[]): readonly Part[] {
  const def = defOf(list.part);
  if (def.type !== "array") return [list];
  const part = def.element as z.ZodType;
  return items.map((value) => ({ part, value, path: list.path }));
}

/** Rules about a list or an object as a whole need the whole of it. */
const isWhole = (part: z.ZodType): boolean => (defOf(part).checks ?? []).length > 0;

/** What is left of a part that may be missing. */
function bare(part: z.ZodType): z.ZodType {
  const def = defOf(part);
  switch (def.type) {
    case "optional":
    case "default":
    case "readonly":
      return isWhole(part) ? part : bare(def.innerType as z.ZodType);
    default:
      return part;
  }
}

function partAt(part: z.ZodType, step: string | number): z.ZodType | undefined {
  const def = defOf(part);
  switch (def.type) {
    case "object":
      return Object.hasOwn(def.shape, step) ? (def.shape[step] as z.ZodType) : undefined;
    case "record":
      // Keys of a plain record may be anything; others are judged with all of it.
      return defOf(def.keyType as z.ZodType).type === "string" && !isWhole(def.keyType as z.ZodType)
        ? (def.valueType as z.ZodType)
        : undefined;
    case "array":
      return def.element as z.ZodType;
    default:
      return undefined;
  }
}

const defOf = (part: z.ZodType): core.$ZodTypes["_zod"]["def"] =>
  part._zod.def as core.$ZodTypes["_zod"]["def"];
