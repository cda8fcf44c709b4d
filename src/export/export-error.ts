/** Why an archive was not made or is not taken: a sentence for the user. */
export class ExportError extends Error {
  constructor(message: string, cause?: unknown) {
    super(message, cause === undefined ? undefined : { cause });
    this.name = "ExportError";
  }
}
