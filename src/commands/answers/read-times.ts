import { ownValue } from "../../domain/own-value.ts";
import { err, ok, type Result } from "../../domain/result.ts";
import type { BathAnswers } from "../../domain/teaching/answers.ts";
import { celsius, seconds } from "../../domain/units/quantity.ts";
import type { Listening } from "../../language/reader.ts";
import { readers } from "../../language/readers/all.ts";
import { toWords } from "../../language/words.ts";

type Times = NonNullable<BathAnswers["times"]>;
type Row = Extract<Times, { kind: "table" }>["rows"][number];

const LIKE = "Say it like table 20 6:30, 21 6:00, 22 5:30, or factor 2 for 10 degrees.";

/** Degrees of the definitions that are in use: a factor for 10 °C, and the older one for 7 °C. */
const SPANS: Readonly<Record<string, "q10" | "k7">> = {
  "10": "q10",
  ten: "q10",
  "7": "k7",
  seven: "k7",
};

/** "table 20 6:30, 21 6:00", "68 F 6:30 and 70 F 6:00", "factor 2 for 10 degrees". */
export function readTimes(typed: string, listening: Listening): Result<Times, string> {
  const { words } = toWords(typed.replace(/,/g, " "));
  const said = words.join(" ");
  const factor =
    /\b(?:factor(?: of)?|q10|times|x|doubles?)\b ?(-?\d+(?:\.\d+)?)?(?:.*?\bfor (?:every |each )?(\w+))?/.exec(
      said,
    );
  const isTable = words.includes("table") || (said.match(/\d:\d\d/g) ?? []).length >= 2;
  if (/\b(stops?|push|pushed|rolls?|films?|tanks?)\b/.test(said)) return err(LIKE);
  if (!isTable && factor !== null)
    return readFactor(factor[1], factor[2], /\bdoubles?\b/.test(said));
  const rows = readRows(words, listening);
  if (rows === undefined || rows.length === 0) return err(LIKE);
  return ok({ kind: "table", rows: [...rows] });
}

function readFactor(
  number: string | undefined,
  span: string | undefined,
  doubles: boolean,
): Result<Times, string> {
  const value = number === undefined ? (doubles ? 2 : undefined) : Number(number);
  const kind = span === undefined ? "q10" : ownValue(SPANS, span);
  if (value === undefined || kind === undefined) return err(LIKE);
  return ok(kind === "q10" ? { kind, q10: value } : { kind, k7: value });
}

const between: ReadonlySet<string> = new Set(
  "table and then is are at takes gets to = : at".split(" "),
);

/** Every word must belong to a row: a row half read would be a wrong one. */
function readRows(words: readonly string[], listening: Listening): readonly Row[] | undefined {
  const rows: Row[] = [];
  const skip = (from: number): number => {
    let at = from;
    while (between.has(words[at] ?? "")) at += 1;
    return at;
  };
  for (let at = skip(0); at < words.length; at = skip(at)) {
    const row = rowAt(words, at, skip, listening);
    if (row === undefined) return undefined;
    rows.push(row.row);
    at = row.next;
  }
  return rows;
}

function rowAt(
  words: readonly string[],
  from: number,
  skip: (from: number) => number,
  listening: Listening,
): { readonly row: Row; readonly next: number } | undefined {
  for (const heat of readers.temperature(words, from, listening)) {
    if (typeof heat.value !== "number") continue;
    const time = readers.duration(words, skip(heat.next), listening)[0];
    if (time === undefined || typeof time.value !== "number") continue;
    return { row: { at: celsius(heat.value), time: seconds(time.value) }, next: time.next };
  }
  return undefined;
}
