/** One thing the doctor looked at. "mend": something does not work until it is mended. */
export type Finding = {
  readonly kind: "good" | "note" | "mend";
  readonly what: string;
  readonly says: string;
};

const signs: Readonly<Record<Finding["kind"], string>> = {
  good: "good ",
  note: "note ",
  mend: "MEND ",
};

/** The findings as lines, what they are about in one column. */
export function showFindings(findings: readonly Finding[]): string {
  const wide = Math.max(...findings.map(({ what }) => what.length));
  const lines = findings.map(
    ({ kind, what, says }) => `${signs[kind]} ${what.padEnd(wide)}  ${says}`,
  );
  const wrong = findings.filter(({ kind }) => kind === "mend").length;
  const last =
    wrong === 0
      ? "Nothing to mend."
      : `${wrong === 1 ? "One thing" : `${wrong} things`} to mend, marked MEND.`;
  return `${[...lines, "", last].join("\n")}\n`;
}
