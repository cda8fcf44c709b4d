import { mkdir, rename, writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { Shape } from "../../picture/look.ts";
import { toPng } from "../../picture/png.ts";
import { temperatureChart } from "../../picture/temperature-chart.ts";
import type { Json, Reply, ReplyPicture } from "../../reply/reply.ts";
import { fileNameOf } from "../../store/names.ts";

/** What draws the pictures of replies. */
export type Pictures = {
  /** The reply with the names of its picture's files, or with why there are none. Never rejects. */
  drawn(reply: Reply): Promise<Reply>;
};

const FOLDER = "pictures";

/** A wide one for the screen and the post, an upright one for a phone. */
const shapes: readonly { readonly shape: Shape; readonly key: string; readonly tail: string }[] = [
  { shape: "wide", key: "picture", tail: "" },
  { shape: "phone", key: "picture_phone", tail: "-phone" },
];

/**
 * Pictures as files in a folder of the data folder, named by what they show: one that is asked for
 * again takes the place of the old one. Their names are told from the data folder on.
 *
 * @param draw  turns SVG into PNG, away from the thread that gives the cues
 */
export function picturesIn(data: string, draw: typeof toPng = toPng): Pictures {
  const keep = async (name: string, bytes: string | Uint8Array): Promise<string> => {
    const path = join(data, FOLDER, name);
    await mkdir(join(data, FOLDER), { recursive: true, mode: 0o700 });
    // Nobody who looks at the old picture sees half a new one.
    await writeFile(`${path}.part`, bytes, { mode: 0o600 });
    await rename(`${path}.part`, path);
    return `${FOLDER}/${name}`;
  };
  const files = async ({ name, chart, zone }: ReplyPicture) => {
    const facts: Record<string, Json> = {};
    for (const { shape, key, tail } of shapes) {
      const base = `${fileNameOf(name)}${tail}`;
      const picture = temperatureChart(chart, zone, shape);
      facts[`${key}_svg`] = await keep(`${base}.svg`, picture.svg);
      facts[key] = await keep(`${base}.png`, await draw(picture));
    }
    return facts;
  };
  return {
    async drawn(reply) {
      const { picture } = reply;
      if (picture === undefined) return reply;
      try {
        const facts = await files(picture);
        const names = shapes.map(({ key }) => facts[key]).join(" and ");
        return {
          ...reply,
          lines: [...reply.lines, `Picture: ${names}, in the data folder.`],
          facts: { ...reply.facts, ...facts },
        };
      } catch (error) {
        return {
          ...reply,
          cautions: [...reply.cautions, `No picture: ${whyNot(error)} The text holds.`],
        };
      }
    },
  };
}

/** In words without a path of this machine. */
function whyNot(error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : undefined;
  switch (code) {
    case "ENOSPC":
      return "the disk is full.";
    case "EACCES":
    case "EPERM":
    case "EROFS":
      return "the data folder cannot be written to.";
    case undefined:
      return "it could not be drawn.";
    default:
      return `it could not be kept (${code}).`;
  }
}
