import { Reader } from "./bytes.ts";

const PUBLIC_MESSAGE = 1;
const MEMBER = 1;
const COMMIT = 3;
const BY_COMMIT = 3;

/**
 * A commit and the welcome that may follow it, as opcode 28 strings them together: the commit has
 * no length of its own, so it is read through (RFC 9420, sections 6 and 12.4).
 *
 * @throws RangeError when it is no commit of a member
 */
export function splitCommit(payload: Buffer): { commit: Buffer; welcome: Buffer | undefined } {
  const read = new Reader(payload);
  read.skip(2);
  if (read.uint(2) !== PUBLIC_MESSAGE) throw new RangeError("Not a public message");
  read.vector();
  read.skip(8);
  if (read.uint(1) !== MEMBER) throw new RangeError("Not of a member");
  read.skip(4);
  read.vector();
  if (read.uint(1) !== COMMIT) throw new RangeError("Not a commit");
  read.vector();
  if (read.uint(1) === 1) skipPath(read);
  // Signature, confirmation tag, membership tag.
  for (let left = 3; left > 0; left -= 1) read.vector();
  const commit = payload.subarray(0, read.at);
  const rest = payload.subarray(read.at);
  return { commit, welcome: rest.length === 0 ? undefined : rest };
}

/** An update path: the new leaf, then the nodes above it. */
function skipPath(read: Reader): void {
  read.vector();
  read.vector();
  read.skip(2);
  read.vector();
  // Capabilities: versions, ciphersuites, extensions, proposals, credentials.
  for (let left = 5; left > 0; left -= 1) read.vector();
  if (read.uint(1) !== BY_COMMIT) throw new RangeError("A leaf that comes by no commit");
  read.vector();
  read.vector();
  read.vector();
  read.vector();
}
