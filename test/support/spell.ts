const small =
  "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split(
    " ",
  );
const tens = "_ _ twenty thirty forty fifty sixty seventy eighty ninety".split(" ");

/** A whole number below a million in English words: 650 is "six hundred and fifty". */
export function spell(value: number): string {
  if (value < 20) return small[value] ?? "";
  if (value < 100) {
    const ten = tens[Math.floor(value / 10)] ?? "";
    return value % 10 === 0 ? ten : `${ten} ${spell(value % 10)}`;
  }
  const [size, name] = value < 1000 ? [100, "hundred"] : [1000, "thousand"];
  const head = `${spell(Math.floor(value / size))} ${name}`;
  const rest = value % size;
  if (rest === 0) return head;
  return `${head} ${rest < 100 ? "and " : ""}${spell(rest)}`;
}
