/**
 * A number written in digits: "650", "-5", "1,000", "37.8", "37,8", ".5", "1e3", "1/2".
 * NaN when it is one but no finite one ("1e309", "1/0", "nan"); undefined when it is none.
 * A comma before three digits groups thousands unless a lone zero leads ("0,125"); any other comma
 * is a decimal comma (common usage, no source).
 */
export function numeral(word: string): number | undefined {
  if (/^[-+±]?(?:nan|inf|infinity|infinite)$/.test(word)) return Number.NaN;
  if (!/^[-+±]?[.\d]/.test(word)) return undefined;
  const sign = word.startsWith("-") ? -1 : 1;
  const value = unsigned(word.replace(/^[-+±]/, ""));
  if (value === undefined) return undefined;
  return Number.isFinite(value) ? sign * value : Number.NaN;
}

function unsigned(digits: string): number | undefined {
  if (/^(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?$/.test(digits)) return Number(digits);
  if (/^[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?$/.test(digits)) return Number(digits.replaceAll(",", ""));
  if (/^[1-9]\d{0,2}(?:\.\d{3})+,\d+$/.test(digits)) {
    return Number(digits.replaceAll(".", "").replace(",", "."));
  }
  if (/^\d+,\d+$/.test(digits)) return Number(digits.replace(",", "."));
  const fraction = /^(\d+)\/(\d+)$/.exec(digits);
  return fraction === null ? undefined : Number(fraction[1]) / Number(fraction[2]);
}

/** "1/2", which may follow a whole number: "2 1/2". */
export const isFraction = (word: string | undefined): word is string =>
  word !== undefined && /^\d+\/[1-9]\d*$/.test(word);
