/** Writes to the standard output; when whoever reads it has left, there is nothing more to do. */
export function writer(stdout: NodeJS.WriteStream): (text: string) => void {
  stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit(0);
  });
  return (text) => void stdout.write(text);
}
