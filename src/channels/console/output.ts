/**
 * Writes to the standard output; when whoever reads it has left, there is nothing more to do. Where
 * it cannot be written the program ends with exit code 1: what was answered is kept.
 *
 * @param onFault  told why instead, by a program that has a log
 */
export function writer(
  stdout: NodeJS.WriteStream,
  onFault: (error: NodeJS.ErrnoException) => void = endIt,
): (text: string) => void {
  stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") process.exit();
    onFault(error);
  });
  return (text) => void stdout.write(text);
}

function endIt({ code = "" }: NodeJS.ErrnoException): void {
  const why = code === "ENOSPC" || code === "EDQUOT" ? "the disk it goes to is full" : code;
  process.stderr.write(`I cannot write to the standard output${why === "" ? "" : `: ${why}`}.\n`);
  process.exit(1);
}
