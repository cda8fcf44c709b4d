import type { ProcessMark } from "../../domain/film/process-mark.ts";
import { phrases } from "./phrases.ts";

/**
 * The slot `{mark}`: only what can stand on a cassette. "Colour negative" or "slide" is not
 * enough, for movie film and old films are that too. Common usage, no source.
 */
export const readMark = phrases<ProcessMark>([
  ["C-41", "c-41, c41, c 41, c forty one, process c-41, process c41"],
  ["E-6", "e-6, e6, e 6, e six, process e-6, process e6"],
  ["ECN-2", "ecn-2, ecn2, ecn 2, ecn two, e c n 2, e c n two, process ecn-2"],
  ["black-and-white", "black and white, black-and-white, b&w, b/w, bw, b and w, b w"],
]);
