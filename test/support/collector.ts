import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";

/** What collects all garbage of this thread at once. */
export const collector = (): (() => void) => {
  setFlagsFromString("--expose-gc");
  return runInNewContext("gc") as () => void;
};
