import type { PcmForm } from "../audio/to-mono-16k.ts";
import type { EngineChoice } from "../engine.ts";
import type { OwnNames } from "../grammar/own-names.ts";
import type { EarEvent } from "./listener.ts";

/** What the thread of the ear is started with. */
export type EarSetup = { readonly engine: EngineChoice; readonly form: PcmForm };

/** From the program to the ear. */
export type ToEar =
  | { readonly kind: "names"; readonly names: OwnNames }
  | { readonly kind: "sound"; readonly samples: Int16Array; readonly at: number }
  | { readonly kind: "press" }
  | { readonly kind: "release"; readonly at: number }
  | { readonly kind: "drop" };

/** From the ear: what it heard, or that it has taken in one piece of sound. */
export type FromEar = EarEvent | { readonly kind: "took" };
