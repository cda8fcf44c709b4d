import { mkdir, rename, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { drawingOf } from "../../picture/drawing-of.ts";
import type { Shape } from "../../picture/look.ts";
import { toPng } from "../../picture/png.ts";
import type { Json, Reply, ReplyDocument, ReplyPicture } from "../../reply/reply.ts";
import { fileNameOf } from "../../store/names.ts";

/** What draws the pictures of replies and writes down their documents. */
export type Pictures = {
  /** The reply with the names of the files of its picture or document, or why there are none. Never rejects. */
  drawn(reply: Reply): Promise<Reply>;
};

const FOLDER = "pictures";
const RECORDS = "records";
const endings: Readonly<Record<ReplyDocument["kind"], string>> = { markdown: "md", json: "json" };

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
  const keep = async (
    name: string,
    bytes: string | Uint8Array,
    folder = FOLDER,
  ): Promise<string> => {
    const path = join(data, folder, name);
    await mkdir(join(data, folder), { recursive: true, mode: 0o700 });
    // Nobody who looks at the old file sees half a new one.
    await writeFile(`${path}.part`, bytes, { mode: 0o600 });
    await rename(`${path}.part`, path);
    return `${folder}/${name}`;
  };
  const written = async (reply: Reply, { kind, name, text }: ReplyDocument): Promise<Reply> => {
    try {
      const file = await keep(`${fileNameOf(name)}.${endings[kind]}`, text, RECORDS);
      return {
        ...reply,
        lines: [...reply.lines, `File: ${file}, in the data folder.`],
        facts: { ...reply.facts, document: file },
      };
    } catch (error) {
      return { ...reply, cautions: [...reply.cautions, `No file: ${whyNot(error)}`] };
    }
  };
  const files = async (shown: ReplyPicture) => {
    const facts: Record<string, Json> = {};
    for (const { shape, key, tail } of shapes) {
      const base = `${fileNameOf(shown.name)}${tail}`;
      const picture = drawingOf(shown, shape);
      facts[`${key}_svg`] = await keep(`${base}.svg`, picture.svg);
      facts[key] = await keep(`${base}.png`, await draw(picture));
    }
    return facts;
  };
  return {
    async drawn(given) {
      const { picture, document } = given;
      const reply = document === undefined ? given : await written(given, document);
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
