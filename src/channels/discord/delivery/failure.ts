/** Why a request did not do what it was for, as far as it matters for what to do next. */
export type Failure =
  /** Too many requests; after so many ms it may be tried again. */
  | { readonly kind: "limited"; readonly ms: number }
  /** The service or the way to it failed; the same request may do later, and may have been done. */
  | { readonly kind: "unreachable"; readonly what: string }
  /** The bot may not write there. */
  | { readonly kind: "no-permission" }
  /** The channel, message or interaction is not there any more. */
  | { readonly kind: "gone"; readonly code: number }
  /** This person takes no direct messages from the bot, or is not to have this one. */
  | { readonly kind: "closed-to-us" }
  /** The token is not accepted any more. */
  | { readonly kind: "bad-token" }
  /** Nothing that waiting would mend: a fault of ours. */
  | { readonly kind: "refused"; readonly code: number; readonly what: string };

/** Thrown by our own request function; the library passes it on as it is. */
export class Limited extends Error {
  readonly ms: number;

  constructor(ms: number) {
    super(`too many requests; again in ${ms} ms`);
    this.name = "Limited";
    this.ms = ms;
  }
}

/** Thrown by our own request function: this person is not to have what was on its way to them. */
export class NotForThem extends Error {
  constructor() {
    super("no member of the bench any more");
    this.name = "NotForThem";
  }
}

/** "Unknown message", "edited too often": the message is left and a new one made. */
export const UNKNOWN_MESSAGE = 10_008;
export const TOO_MANY_OLD_EDITS = 30_046;
const NO_PERMISSION = new Set([50_001, 50_013]);
const CLOSED = new Set([50_007, 50_278]);

const field = (error: object, name: string): unknown => Reflect.get(error, name);

/** Nothing of the request itself is kept, since addresses of interactions hold their tokens. */
export function failureOf(error: unknown): Failure {
  if (error instanceof Limited) return { kind: "limited", ms: error.ms };
  if (error instanceof NotForThem) return { kind: "closed-to-us" };
  if (typeof error !== "object" || error === null) return { kind: "unreachable", what: "unknown" };
  const name = String(field(error, "name"));
  if (name.startsWith("RateLimitError")) {
    const ms = Number(field(error, "retryAfter"));
    return { kind: "limited", ms: Number.isFinite(ms) && ms > 0 ? ms : 1000 };
  }
  const status = field(error, "status");
  if (typeof status !== "number") {
    // A missing token is how the library shows that the one it had was refused.
    if (/Expected token to be set/.test(String(field(error, "message"))))
      return { kind: "bad-token" };
    const cause = field(error, "cause");
    const code =
      typeof cause === "object" && cause !== null ? field(cause, "code") : field(error, "code");
    return { kind: "unreachable", what: typeof code === "string" ? code : name };
  }
  if (status >= 500) return { kind: "unreachable", what: String(status) };
  if (status === 401) return { kind: "bad-token" };
  const code = Number(field(error, "code"));
  if (CLOSED.has(code)) return { kind: "closed-to-us" };
  if (NO_PERMISSION.has(code)) return { kind: "no-permission" };
  if (status === 404) return { kind: "gone", code };
  if (status === 403) return { kind: "no-permission" };
  return { kind: "refused", code, what: `${status} ${code}` };
}
