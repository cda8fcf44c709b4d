/** A key of an object or a place in a list. */
type Step = string | number;

/** What one commit alters in a plain JSON value. An empty path means the value itself. */
export type Change =
  | { readonly kind: "set"; readonly path: readonly Step[]; readonly value: unknown }
  | { readonly kind: "drop"; readonly path: readonly Step[] }
  | { readonly kind: "push"; readonly path: readonly Step[]; readonly items: readonly unknown[] };

type Fields = Readonly<Record<string, unknown>>;

/**
 * The changes that turn `previous` into `next`, both plain JSON values that are never altered in
 * place: parts that are the same by reference are taken as equal without a look inside. A key
 * whose value is `undefined` counts as absent, as it does in JSON.
 *
 * `diff(next, previous)` is the inverse, which is how an undo is kept.
 */
export function diff(previous: unknown, next: unknown): readonly Change[] {
  const changes: Change[] = [];
  compare(previous, next, [], changes);
  return changes;
}

/**
 * Performs changes on a copy; only what lies along their paths is copied, the rest is shared.
 * Throws when a path leads nowhere: changes fit one value only, the one they were made from.
 */
export function apply<T>(value: T, changes: readonly Change[]): T {
  return applying(value).take(changes);
}

/**
 * As `apply`, for changes that come a few at a time: what was copied once is not copied again, so
 * that a thousand entries of one list cost a thousand and not a million. Each result stands for
 * itself only until the next changes are taken.
 */
export function applying<T>(value: T): { take(changes: readonly Change[]): T } {
  const made: Made = new WeakSet();
  let result: unknown = value;
  return {
    take(changes) {
      for (const change of changes) result = perform(result, change, 0, made);
      return result as T;
    },
  };
}

/** Copies that nobody else has seen: they may be altered in place. */
type Made = WeakSet<object>;

/** As `apply`; undefined where the changes were made from another value than this. */
export function applyIfFits<T>(value: T, changes: readonly Change[]): T | undefined {
  try {
    return apply(value, changes);
  } catch (error) {
    if (error instanceof Astray) return undefined;
    throw error;
  }
}

function compare(previous: unknown, next: unknown, path: readonly Step[], changes: Change[]): void {
  if (Object.is(previous, next)) return;
  if (Array.isArray(previous) && Array.isArray(next)) {
    compareLists(previous, next, path, changes);
  } else if (isFields(previous) && isFields(next)) {
    compareFields(previous, next, path, changes);
  } else {
    changes.push({ kind: "set", path, value: next });
  }
}

function compareLists(
  previous: readonly unknown[],
  next: readonly unknown[],
  path: readonly Step[],
  changes: Change[],
): void {
  const grown = next.length > previous.length;
  if (next.length === previous.length) {
    for (let at = 0; at < next.length; at += 1) {
      if (Object.is(previous[at], next[at])) continue;
      compare(previous[at], next[at], [...path, at], changes);
    }
  } else if (grown && previous.every((item, at) => Object.is(item, next[at]))) {
    changes.push({ kind: "push", path, items: next.slice(previous.length) });
  } else {
    changes.push({ kind: "set", path, value: next });
  }
}

function compareFields(
  previous: Fields,
  next: Fields,
  path: readonly Step[],
  changes: Change[],
): void {
  for (const key of Object.keys(previous)) {
    if (previous[key] !== undefined && own(next, key) === undefined) {
      changes.push({ kind: "drop", path: [...path, key] });
    }
  }
  for (const key of Object.keys(next)) {
    const value = own(next, key);
    if (value === undefined) continue;
    const before = own(previous, key);
    if (before === undefined) changes.push({ kind: "set", path: [...path, key], value });
    else if (!Object.is(before, value)) compare(before, value, [...path, key], changes);
  }
}

function perform(value: unknown, change: Change, depth: number, made: Made): unknown {
  const step = change.path[depth];
  if (step === undefined) return performHere(value, change, made);
  const last = depth === change.path.length - 1;
  if (Array.isArray(value)) {
    if (typeof step !== "number" || !(step in value)) throw astray(change);
    const list = ownList(value, made);
    list[step] = perform(value[step], change, depth + 1, made);
    return list;
  }
  if (!isFields(value) || typeof step !== "string") throw astray(change);
  if (last && change.kind === "drop") {
    const fields = ownFields(value, made);
    delete fields[step];
    return fields;
  }
  const inner = own(value, step);
  if (inner === undefined && !(last && change.kind === "set")) throw astray(change);
  return withField(ownFields(value, made), step, perform(inner, change, depth + 1, made));
}

function performHere(value: unknown, change: Change, made: Made): unknown {
  if (change.kind === "set") return change.value;
  if (change.kind === "push" && Array.isArray(value)) {
    const list = ownList(value, made);
    for (const item of change.items) list.push(item);
    return list;
  }
  throw astray(change);
}

function ownList(list: readonly unknown[], made: Made): unknown[] {
  if (made.has(list)) return list as unknown[];
  const copy = [...list];
  made.add(copy);
  return copy;
}

function ownFields(fields: Fields, made: Made): Record<string, unknown> {
  if (made.has(fields)) return fields as Record<string, unknown>;
  const copy = { ...fields };
  made.add(copy);
  return copy;
}

const isFields = (value: unknown): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** Own keys only, so that a bottle named "constructor" is a bottle and not a function. */
const own = (fields: Fields, key: string): unknown =>
  Object.hasOwn(fields, key) ? fields[key] : undefined;

/** Defined, never assigned: assigning to "__proto__" would change what the copy inherits. */
const withField = (copy: Record<string, unknown>, key: string, value: unknown): Fields =>
  Object.defineProperty(copy, key, { value, writable: true, enumerable: true, configurable: true });

class Astray extends TypeError {}

const astray = (change: Change): Astray =>
  new Astray(`A ${change.kind} at [${change.path.join(", ")}] does not fit this value.`);
