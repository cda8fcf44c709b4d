/** One frame is 10 ms. */
export type Frame = {
  /** How likely it is a voice, 0 to 1. */
  readonly voice: number;
};

export type EndpointOptions = {
  /** A voice is surer than this when it begins, and less sure than `off` when it ends. */
  readonly on: number;
  readonly off: number;
  /** Frames of voice, of the last `within`, that begin an utterance. */
  readonly begins: number;
  readonly within: number;
  /** Frames without voice that end it. */
  readonly ends: number;
  /** Frames after which an utterance is talk, not a command: it is dropped until it ends. */
  readonly longest: number;
};

export const usualEndpoint: EndpointOptions = {
  on: 0.7,
  off: 0.45,
  begins: 8,
  within: 12,
  ends: 40,
  longest: 1000,
};

/** Where the listener stands between two frames. Plain data. */
export type Endpoint = {
  readonly phase: "quiet" | "speech" | "too-long";
  /** Which of the last frames were voice, newest last. */
  readonly recent: readonly boolean[];
  /** Frames since the utterance began, and since its last voice. */
  readonly length: number;
  readonly silence: number;
};

export const quiet: Endpoint = { phase: "quiet", recent: [], length: 0, silence: 0 };

export type EndpointEvent = "began" | "ended" | "too-long" | undefined;

/** Takes one frame in: where an utterance begins and ends. Pure. */
export function step(
  at: Endpoint,
  { voice }: Frame,
  options: EndpointOptions = usualEndpoint,
): { readonly at: Endpoint; readonly event: EndpointEvent } {
  if (at.phase === "quiet") {
    const recent = [...at.recent, voice > options.on].slice(-options.within);
    const count = recent.filter(Boolean).length;
    return count >= options.begins
      ? { at: { phase: "speech", recent: [], length: recent.length, silence: 0 }, event: "began" }
      : { at: { ...quiet, recent }, event: undefined };
  }
  const silence = voice < options.off ? at.silence + 1 : 0;
  if (silence >= options.ends) {
    return { at: quiet, event: at.phase === "speech" ? "ended" : undefined };
  }
  const length = at.length + 1;
  if (at.phase === "speech" && length > options.longest) {
    return { at: { ...at, phase: "too-long", length, silence }, event: "too-long" };
  }
  return { at: { ...at, length, silence }, event: undefined };
}
