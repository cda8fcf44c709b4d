import { setFlagsFromString } from "node:v8";

/**
 * What the engine compiles for speed, and what it notes about that among our values, grows for
 * hours: while it does not, what grows is ours. What is compiled already stays.
 */
export const compileForSpeed = (on: boolean): void => {
  for (const compiler of ["opt", "maglev", "sparkplug"]) {
    setFlagsFromString(`--${on ? "" : "no-"}${compiler}`);
  }
};
