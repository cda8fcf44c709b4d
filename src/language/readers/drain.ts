import { phrases } from "./phrases.ts";

/** The slot `{drain}`: where a household's waste water goes. Common usage, no source. */
export const readDrain = phrases<"sewer" | "septic" | "unknown">([
  [
    "sewer",
    "sewer, sewers, the sewer, sewerage, mains, the mains, main drain, mains drain, mains drainage, main drainage",
  ],
  ["sewer", "town sewer, city sewer, public sewer, municipal sewer, mains sewer, main sewer"],
  ["septic", "septic, septic tank, septic system, cesspit, cesspool, cess pit, soakaway"],
  ["unknown", "unknown, i do not know, do not know, no idea, not sure, i am not sure, not known"],
]);
