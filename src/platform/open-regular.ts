import { close, constants, fstat, open, read } from "node:fs";
import { promisify } from "node:util";

const opened = promisify(open);
const stated = promisify(fstat);
export const closeFile = promisify(close);
const readInto = promisify(read);

// Windows has neither of them, nor what they keep out.
const { O_RDONLY, O_NONBLOCK = 0, O_NOFOLLOW = 0 } = constants;

/**
 * Opens a file that others may have put in our folders, for reading: a plain file and nothing else.
 * A pipe would keep one of the few threads waiting for good, and a link leads out of the folder.
 *
 * @returns its descriptor, the caller's to close; undefined for what is no plain file
 * @throws what the system says where there is none, or it may not be read
 */
export async function openRegular(path: string): Promise<number | undefined> {
  let file: number;
  try {
    file = await opened(path, O_RDONLY | O_NONBLOCK | O_NOFOLLOW);
  } catch (error) {
    const code = error instanceof Error && "code" in error ? error.code : undefined;
    // A link; a socket or a device nobody answers for.
    if (code === "ELOOP" || code === "EMLINK" || code === "ENXIO") return undefined;
    throw error;
  }
  try {
    if ((await stated(file)).isFile()) return file;
  } catch (error) {
    await closeFile(file);
    throw error;
  }
  await closeFile(file);
  return undefined;
}

/** All of a plain file of at most so many bytes; undefined for one that is longer, or none. */
export async function readRegular(path: string, most: number): Promise<Buffer | undefined> {
  const file = await openRegular(path);
  if (file === undefined) return undefined;
  try {
    const { size } = await stated(file);
    if (size > most) return undefined;
    const bytes = Buffer.allocUnsafe(size);
    let got = 0;
    while (got < size) {
      const { bytesRead } = await readInto(file, bytes, got, size - got, got);
      if (bytesRead === 0) break;
      got += bytesRead;
    }
    return bytes.subarray(0, got);
  } finally {
    await closeFile(file);
  }
}
