export type StoreErrorKind =
  | "in-use"
  | "disk-full"
  | "disk-error"
  | "no-permission"
  | "unreadable"
  | "newer-version"
  | "bad-name"
  | "conflict"
  | "unfit"
  | "closed";

/** Something about the stored files that the user can see or mend; the message says what. */
export class StoreError extends Error {
  readonly kind: StoreErrorKind;

  constructor(kind: StoreErrorKind, message: string, cause?: unknown) {
    super(message, cause === undefined ? undefined : { cause });
    this.name = "StoreError";
    this.kind = kind;
  }
}

const codeOf = (cause: unknown): string =>
  cause instanceof Error && "code" in cause ? String(cause.code) : "";

/** Puts a failed file operation into words. `what` names what was being done: "save that change". */
export function diskError(cause: unknown, what: string): StoreError {
  if (cause instanceof StoreError) return cause;
  const code = codeOf(cause);
  switch (code) {
    case "ENOSPC":
    case "EDQUOT":
      return new StoreError(
        "disk-full",
        `The disk is full, so I could not ${what}. Free some space and try again.`,
        cause,
      );
    case "EACCES":
    case "EPERM":
    case "EROFS":
      return new StoreError(
        "no-permission",
        `I am not allowed to write in the data folder, so I could not ${what}. Check who owns the folder.`,
        cause,
      );
    default:
      return new StoreError(
        "disk-error",
        `The disk reported an error${code === "" ? "" : ` (${code})`}, so I could not ${what}. Try again; if it persists, copy the data folder to another disk.`,
        cause,
      );
  }
}
