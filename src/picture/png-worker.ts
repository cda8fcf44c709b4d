import { parentPort, workerData } from "node:worker_threads";
import { Resvg } from "@resvg/resvg-js";
import { z } from "zod";
import { fontFiles } from "./fonts.ts";
import { fontFamily } from "./look.ts";

const { svg, width } = z
  .object({ svg: z.string(), width: z.number().positive() })
  .parse(workerData);

const drawn = new Resvg(svg, {
  fitTo: { mode: "width", value: width },
  font: { fontFiles: [...fontFiles()], loadSystemFonts: false, defaultFontFamily: fontFamily },
}).render();
parentPort?.postMessage(new Uint8Array(drawn.asPng()));
