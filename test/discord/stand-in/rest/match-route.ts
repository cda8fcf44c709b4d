import type { Route } from "./call.ts";

export type Matched = { readonly route: Route; readonly params: Record<string, string> };

/** How well a template fits a path: its parameters, or nothing. Literal steps beat parameters. */
function parametersOf(template: string, path: string): Record<string, string> | undefined {
  const wanted = template.split("/");
  const given = path.split("/");
  if (wanted.length !== given.length) return undefined;
  const params: Record<string, string> = {};
  for (const [index, step] of wanted.entries()) {
    const value = decodeURIComponent(given[index] ?? "");
    if (step.startsWith(":")) {
      if (value === "") return undefined;
      params[step.slice(1)] = value;
    } else if (step !== value) return undefined;
  }
  return params;
}

/** Finds the route of a request; the one with the fewest parameters where several fit. */
export function matchRoute(
  routes: readonly Route[],
  method: string,
  path: string,
): Matched | undefined {
  return routes
    .filter((route) => route.method === method)
    .flatMap((route) => {
      const params = parametersOf(route.path, path);
      return params === undefined ? [] : [{ route, params }];
    })
    .sort((one, other) => Object.keys(one.params).length - Object.keys(other.params).length)[0];
}

/** Whether "METHOD /path/:with/:parameters" describes a request: by its template or its path. */
export function describes(
  pattern: string,
  method: string,
  template: string,
  path: string,
): boolean {
  const [wanted = "", shape = ""] = pattern.split(" ");
  return wanted === method && (shape === template || parametersOf(shape, path) !== undefined);
}
