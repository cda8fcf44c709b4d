import type { IncomingMessage } from "node:http";
import { UPLOAD_LIMIT, type Upload } from "../messages/files.ts";
import { refusals } from "./refusal.ts";

export type Body = { readonly json: unknown; readonly uploads: readonly Upload[] };

/** Room for the form around the files. */
const OVERHEAD = 256 * 1024;

/** @throws Refusal 40005 for more than an upload may be */
async function readBytes(request: IncomingMessage): Promise<Buffer<ArrayBuffer>> {
  const parts: Buffer[] = [];
  let size = 0;
  for await (const part of request) {
    size += (part as Buffer).length;
    if (size <= UPLOAD_LIMIT + OVERHEAD) parts.push(part as Buffer);
  }
  if (size > UPLOAD_LIMIT + OVERHEAD) throw refusals.tooLarge();
  return Buffer.concat(parts);
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw refusals.invalidJson();
  }
}

/**
 * Reads JSON, or a form with `payload_json` and `files[n]` (API reference, "Uploading Files").
 * @throws Refusal 50109 for broken JSON, 40005 for too much
 */
export async function readBody(request: IncomingMessage): Promise<Body> {
  const bytes = await readBytes(request);
  const type = request.headers["content-type"] ?? "";
  if (bytes.length === 0) return { json: undefined, uploads: [] };
  if (!type.startsWith("multipart/form-data"))
    return { json: parse(bytes.toString("utf8")), uploads: [] };
  const form = await new Response(bytes, { headers: { "content-type": type } }).formData();
  const uploads: Upload[] = [];
  for (const [name, value] of form) {
    const index = /^files\[(\d+)\]$/.exec(name)?.[1];
    if (index === undefined || typeof value === "string") continue;
    uploads.push({
      index,
      filename: value.name,
      contentType: value.type,
      bytes: new Uint8Array(await value.arrayBuffer()),
    });
  }
  const payload = form.get("payload_json");
  return { json: typeof payload === "string" ? parse(payload) : {}, uploads };
}
