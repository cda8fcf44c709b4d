/**
 * A text a terminal shows and does not obey: control characters but the end of a line (names out of
 * a stored record may hold any) are left out, and so is what turns the direction of writing.
 */
export const printable = (text: string): string =>
  text.replace(/(?!\n)\p{Cc}|[\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, "");
