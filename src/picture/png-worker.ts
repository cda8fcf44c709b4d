import { fileURLToPath } from "node:url";
import { parentPort, workerData } from "node:worker_threads";
import { Resvg } from "@resvg/resvg-js";
import { z } from "zod";
import { fontFamily } from "./look.ts";

const { svg, width } = z
  .object({ svg: z.string(), width: z.number().positive() })
  .parse(workerData);

/** The project's own font, so that a picture looks the same on every machine. */
const fontFiles = [
  import.meta.resolve(
    "@expo-google-fonts/atkinson-hyperlegible-next/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf",
  ),
  import.meta.resolve(
    "@expo-google-fonts/atkinson-hyperlegible-next/500Medium/AtkinsonHyperlegibleNext_500Medium.ttf",
  ),
  import.meta.resolve(
    "@expo-google-fonts/atkinson-hyperlegible-next/600SemiBold/AtkinsonHyperlegibleNext_600SemiBold.ttf",
  ),
  import.meta.resolve(
    "@expo-google-fonts/atkinson-hyperlegible-next/700Bold/AtkinsonHyperlegibleNext_700Bold.ttf",
  ),
].map((url) => fileURLToPath(url));

const drawn = new Resvg(svg, {
  fitTo: { mode: "width", value: width },
  font: { fontFiles, loadSystemFonts: false, defaultFontFamily: fontFamily },
}).render();
parentPort?.postMessage(new Uint8Array(drawn.asPng()));
