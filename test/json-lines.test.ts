import { expect, test } from "vitest";
import { withFolder } from "./support/child.ts";
import { LONG_SCRIPT, LONG_SCRIPT_AT } from "./support/long-script.ts";
import { type Line, readLines } from "./support/program.ts";
import { simulate } from "./support/simulate.ts";

/** What is said in answer to `messages`, at `at`, on a bench of its own. */
const answers = (messages: readonly string[], at = LONG_SCRIPT_AT): Promise<readonly Line[]> =>
  withFolder(async (folder) => readLines((await simulate(folder, at, messages)).join("")));

test("every line of a long script is what the public form says", async () => {
  const printed = await withFolder((folder) => simulate(folder, LONG_SCRIPT_AT, LONG_SCRIPT));
  for (const line of printed) expect(line).toMatch(/^\{.*\}\n$/);
  const lines = readLines(printed.join(""));
  expect(lines.length).toBe(printed.length);
  const kinds = lines.map(({ kind }) => kind);
  expect(kinds).toEqual(expect.arrayContaining(["reply", "cue", "refusal", "question"]));
  let last = 0;
  for (const { at, kind, values, origins } of lines) {
    const instant = Temporal.Instant.from(at).epochMilliseconds;
    expect(instant).toBeGreaterThanOrEqual(last);
    last = instant;
    expect(at).toMatch(/Z$/);
    if (kind === "refusal") expect(values.reason).toMatch(/^[a-z]+(-[a-z]+)*$/);
    else expect(values).not.toHaveProperty("reason");
    for (const key of Object.keys(values)) {
      expect(key).toMatch(/^[a-z][a-z0-9]*(_[a-z0-9]+)*$/);
    }
    expect(Object.keys(values)).toEqual(expect.arrayContaining(Object.keys(origins)));
  }
});

test("what is said aloud fits in one breath", async () => {
  const lines = await answers(LONG_SCRIPT);
  const long = lines.map(({ say }) => say).filter((say) => say.split(/\s+/).length > 12);
  expect(long).toEqual([]);
});

test("a wrong move is refused, and the clock stands where it stood", async () => {
  const lines = await answers(["@+3", "@yesterday", "@2020-01-01T00:00", "@", "@+401d", "left"]);
  expect(lines.map(({ kind, values }) => values.reason ?? kind)).toEqual([
    ...Array.from({ length: 5 }, () => "bad-move"),
    "reply",
  ]);
  for (const { at } of lines) expect(at).toBe(LONG_SCRIPT_AT);
});

test("a move is read in the zone of the bench, also across the change to summer time", async () => {
  const lines = await answers(
    [
      "set zone Europe/Lisbon",
      "@2027-03-28T00:59:59",
      "left",
      "@+1s",
      "left",
      "@2027-03-28T09:00",
      "left",
    ],
    "2027-03-27T12:00:00Z",
  );
  expect(lines.map(({ at }) => at)).toEqual([
    "2027-03-27T12:00:00Z",
    "2027-03-28T00:59:59Z",
    "2027-03-28T01:00:00Z",
    "2027-03-28T08:00:00Z",
  ]);
});

test("cues that fall due on the way are printed at their own instants", async () => {
  const lines = await answers(["start blix for 2 hours", "ready", "in", "@+1d", "left"]);
  const cues = lines.filter(({ kind }) => kind === "cue");
  expect(cues.map(({ at, values }) => `${at} ${values.cue}`)).toEqual([
    "2026-11-28T19:30:10Z vent",
    "2026-11-28T21:29:50Z pour-out",
    "2026-11-28T21:30:00Z run-over",
  ]);
});

test("comments say nothing, and an empty line is answered", async () => {
  const lines = await answers(["# a comment", "#", "", "   "]);
  expect(lines.map(({ values }) => values.reason)).toEqual(["empty", "empty"]);
});

test("a script may end without a line break, or hold the breaks of another system", async () => {
  await withFolder(async (folder) => {
    const lines = readLines((await simulate(folder, LONG_SCRIPT_AT, ["left\r"])).join(""));
    expect(lines.map(({ kind }) => kind)).toEqual(["reply"]);
  });
});
