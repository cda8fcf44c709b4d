/**
 * How usual a command is when it is spoken at the sink, above 0 and up to 1: of two that sound
 * alike the more usual one is heard. Our own judgement, held by the measured phrases.
 *
 * @param isItsWord  it is the first of the command's ways to be said, its own word
 */
export const howUsual = (command: string, isItsWord = true): number =>
  hot.has(command) && (isItsWord || !cries.has(command))
    ? 1
    : hot.has(command) || often.has(command)
      ? 0.2
      : 0.03;

/** Their word is cried out at any time; told in a sentence they are no more usual than others. */
const cries: ReadonlySet<string> = new Set(["trouble", "emergency"]);

const hot: ReadonlySet<string> = new Set([
  "in",
  "out",
  "ready",
  "next",
  "wait",
  "hold",
  "go on",
  "again",
  "left",
  "trouble",
  "emergency",
  "temperature",
  "start",
  "yes",
  "cancel",
  "clear",
  "part in",
  "water in",
]);

const often: ReadonlySet<string> = new Set([
  "batch",
  "bottle",
  "bottles",
  "dilute",
  "fill",
  "help",
  "how long",
  "light",
  "dark",
  "mix",
  "plan",
  "poured",
  "returned",
  "rolls left",
  "skip",
  "stop",
  "summary",
  "time",
  "undo",
  "wet",
  "why",
]);

/** Short words that other words are easily taken for; they are heard only when nothing else fits. */
export const weakWords: ReadonlySet<string> = new Set(["a", "done", "go", "add", "fill", "us"]);
export const WEAK = 0.1;
