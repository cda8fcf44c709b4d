/** What somebody wants of the bot's presence in voice. */
export type Wish = "join" | "leave";

const JOIN =
  /^(?:please )?(?:come in(?:to (?:the )?(?:call|voice(?: channel)?))?|join(?: (?:me|us|in))?(?: (?:in )?(?:the )?(?:call|voice(?: channel)?))?)(?: please)?$/;
const LEAVE =
  /^(?:please )?(?:leave(?: (?:the )?(?:call|voice(?: channel)?))?|hang up)(?: please)?$/;

/** "come in", "join me", "leave the call": what a whole sentence asks for, or nothing. */
export function readWish(text: string): Wish | undefined {
  const plain = text.trim().toLowerCase().replace(/[.!,]/g, "").replace(/\s+/g, " ");
  if (JOIN.test(plain)) return "join";
  return LEAVE.test(plain) ? "leave" : undefined;
}
