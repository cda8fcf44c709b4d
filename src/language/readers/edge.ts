import { phrases } from "./phrases.ts";

/** The slot `{edge}`: the beginning or the end of the developer. */
export const readEdge = phrases<"start" | "end">([
  ["end", "end, ending, finish, stop, finishing, end up, final, last, at the end, pour out"],
  ["start", "start, starting, begin, beginning, pour in, first, at the start, at the beginning"],
]);
