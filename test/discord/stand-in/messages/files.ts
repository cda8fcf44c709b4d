import { refusals } from "../rest/refusal.ts";
import type { Attachment, World } from "../world.ts";

export type Upload = {
  /** The n of `files[n]`. */
  readonly index: string;
  readonly filename: string;
  readonly contentType: string;
  readonly bytes: Uint8Array;
};

type Wanted = {
  readonly id: string | number;
  readonly filename?: string | undefined;
  readonly description?: string | null | undefined;
};

/** The upload limit: 10 MiB (API reference, "Uploading Files"). */
export const UPLOAD_LIMIT = 10 * 1024 * 1024;
/** From memory; the page gives the code 30015 with "(10)". */
const MOST = 10;

/**
 * The attachments of a message: without a list, those it had and the new ones; with a list, what
 * the list names: kept ones by their id, new ones by the number of their file (Message resource,
 * "Attachment Request Structure").
 * @throws Refusal 40005 too large in all, 30015 more than 10
 */
export function attach(
  world: World,
  had: readonly Attachment[],
  uploads: readonly Upload[],
  list: readonly Wanted[] | null | undefined,
): Attachment[] {
  if (uploads.reduce((sum, { bytes }) => sum + bytes.length, 0) > UPLOAD_LIMIT)
    throw refusals.tooLarge();
  const named = (upload: Upload): Wanted | undefined =>
    (list ?? []).find(({ id }) => String(id) === upload.index);
  const fresh = uploads.map((upload) => ({
    id: world.ids.next(),
    filename: named(upload)?.filename ?? upload.filename,
    contentType: upload.contentType,
    bytes: upload.bytes,
    description: named(upload)?.description ?? undefined,
  }));
  const kept =
    list === undefined || list === null
      ? had
      : had.filter(({ id }) => list.some((wanted) => String(wanted.id) === id));
  const all = [...kept, ...fresh];
  if (all.length > MOST) throw refusals.tooManyAttachments();
  return all;
}
