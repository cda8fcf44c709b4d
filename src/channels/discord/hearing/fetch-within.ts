/** A file has so long to come, ms. */
const PATIENCE = 30_000;

/**
 * A file at an address Discord gave us: no more of it than may be, whatever was told of its size,
 * and from nowhere else than told.
 *
 * @param most  bytes
 * @returns undefined where it is not to be had
 * @throws what fetching throws
 */
export async function fetchWithin(
  url: string,
  most: number,
): Promise<Uint8Array | "too-large" | undefined> {
  if (!/^https?:$/.test(new URL(url).protocol)) return undefined;
  const answer = await fetch(url, { redirect: "error", signal: AbortSignal.timeout(PATIENCE) });
  if (!answer.ok || answer.body === null) return undefined;
  const pieces: Uint8Array[] = [];
  let length = 0;
  for await (const piece of answer.body) {
    length += piece.length;
    if (length > most) return "too-large";
    pieces.push(piece);
  }
  return Buffer.concat(pieces);
}
