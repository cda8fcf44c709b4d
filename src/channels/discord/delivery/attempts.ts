export type Attempt = {
  /** When it was first tried, by the bench's time. */
  readonly since: number;
  /** It was seen in its channel. */
  readonly seen: () => void;
};

/**
 * Messages that may exist already though no answer has said so, by the nonce under which each was
 * sent. One list for all benches.
 */
export type Attempts = Map<string, Attempt>;
