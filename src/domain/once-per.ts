/**
 * Work done once for each value that is never altered in place: a bench may hold hundreds of
 * bottles and thousands of rolls, and most turns change none or one. What
 * else goes into it is compared, so the result is that of `work` itself. Let go with its key.
 */
export function oncePer<K extends object, V, Rest extends readonly unknown[]>(
  work: (key: K, ...rest: Rest) => V,
): (key: K, ...rest: Rest) => V {
  const known = new WeakMap<K, { readonly rest: Rest; readonly value: V }>();
  return (key, ...rest) => {
    const before = known.get(key);
    if (before !== undefined && alike(rest, before.rest)) return before.value;
    const value = work(key, ...rest);
    known.set(key, { rest, value });
    return value;
  };
}

function alike(one: readonly unknown[], other: readonly unknown[]): boolean {
  for (let at = 0; at < one.length; at += 1) if (one[at] !== other[at]) return false;
  return true;
}
