/**
 * Messages that may exist already though no answer has said so: by the nonce under which each was
 * sent, what to do once it is seen in its channel. One list for all benches.
 */
export type Attempts = Map<string, () => void>;
