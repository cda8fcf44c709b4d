import { inThread } from "../platform/in-thread.ts";
import type { Picture } from "./temperature-chart.ts";

/** A picture that takes longer than this is given up, ms. */
const PATIENCE = 20_000;

/** A picture as PNG, drawn by a thread of its own. */
export const toPng = ({ svg, width }: Picture): Promise<Uint8Array> =>
  inThread<Uint8Array, Uint8Array>({
    module: new URL("./png-worker.ts", import.meta.url),
    given: { svg, width },
    what: "drawing the picture",
    patience: PATIENCE,
    hear: (png) => png,
  });
