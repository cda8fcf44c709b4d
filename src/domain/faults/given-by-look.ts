import type { Run } from "../session/run.ts";
import type { Seen } from "./diagnosis.ts";

/** What the first look at the dry film has answered already, in the words of the questions. */
export function givenByLook({ firstLook }: Pick<Run, "firstLook">): Seen["given"] {
  if (firstLook === undefined) return {};
  const { edgeNumbers, clearParts, rebate, sameOnAll, place } = firstLook;
  return {
    ...(edgeNumbers === undefined ? {} : { numbers: edgeNumbers }),
    ...(clearParts === "clear" ? { clear: "as on others" } : {}),
    ...(clearParts === "cloudy" ? { clear: "cloudy" } : {}),
    ...(rebate === "fogged" ? { over: "over the edges" } : {}),
    ...(sameOnAll === undefined ? {} : { extent: sameOnAll ? "all of them" : "one roll" }),
    ...(place === "same" ? { place: "same place" } : {}),
    ...(place === "different" ? { place: "anywhere" } : {}),
  };
}
