import { phrases } from "./phrases.ts";

/** The slot `{wholeBench}`: everything there is. */
export const readWholeBench = phrases<true>([
  [
    true,
    "everything, all, it all, all of it, this bench, the bench, whole bench, the whole bench, this whole bench, all data, all the data, everything on this bench",
  ],
]);
