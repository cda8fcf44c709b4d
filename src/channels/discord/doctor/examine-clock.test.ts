import { expect, test } from "vitest";
import { examineClock } from "./examine-clock.ts";

// "Date: Sat, 28 Nov 2026 19:30:00 GMT" in the form of RFC 9110, section 5.6.7 (read).
const header = "Sat, 28 Nov 2026 19:30:00 GMT";
const theirs = Date.UTC(2026, 10, 28, 19, 30);
const asked = (off: number) => ({ from: theirs + off, to: theirs + off + 200 });

test.each([
  { off: 400, kind: "good", says: "within" },
  { off: -4000, kind: "good", says: "within" },
  { off: -12_000, kind: "mend", says: "12 s behind" },
  { off: 90_000, kind: "mend", says: "90 s ahead of" },
  { off: 7_200_000, kind: "mend", says: "2.0 h ahead of" },
])("a clock $off ms off: $kind", ({ off, kind, says }) => {
  const finding = examineClock(header, asked(off));
  expect(finding.kind).toBe(kind);
  expect(finding.says).toContain(says);
});

test.each([null, "yesterday"])("a header that says %s is not held against anyone", (date) => {
  expect(examineClock(date, asked(0)).kind).toBe("note");
});
