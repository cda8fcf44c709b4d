import fc from "fast-check";
import { expect, test } from "vitest";
import { createLog } from "./create-log.ts";
import { jsonLines } from "./json-lines.ts";
import { type LogSetting, levels, logSettings } from "./log.ts";

const hidden = [
  { text: "secret.token", as: "[token]" },
  { text: "/srv/dark/data", as: "the data folder" },
];

function setUp(setting: LogSetting, isTerminal = false) {
  const out: string[] = [];
  const lines = async () => jsonLines(setting, { write: (line) => void out.push(line) });
  const log = createLog({
    setting,
    hidden,
    isTerminal,
    write: (text) => void out.push(text),
    lines,
  });
  return { log, out };
}

test("a line is one JSON object with level, instant and sentence", async () => {
  const { log, out } = setUp("info");
  log("warn", "Discord: connected.", { shards: 2 });
  await log.flush();
  expect(out).toHaveLength(1);
  const line = JSON.parse(out[0] ?? "");
  expect(line).toEqual({
    level: "warn",
    time: expect.stringMatching(/^\d{4}-\d\d-\d\dT[\d:.]+Z$/),
    shards: 2,
    msg: "Discord: connected.",
  });
});

test("a terminal gets the sentence alone", () => {
  const { log, out } = setUp("info", true);
  log("info", "Discord: connected.", { shards: 2 });
  expect(out).toEqual(["Discord: connected.\n"]);
});

test.each(logSettings)(
  "with %s, what is as important or more is written, in order",
  async (setting) => {
    const { log, out } = setUp(setting);
    for (const level of levels) log(level, level);
    await log.flush();
    const written = levels.slice(0, logSettings.indexOf(setting));
    expect(out.map((line) => JSON.parse(line).msg)).toEqual(written);
  },
);

test("what must never be shown never is, whatever stands around it", async () => {
  const around = fc.string({ unit: "grapheme", maxLength: 20 });
  const law = fc.asyncProperty(around, around, fc.constantFrom(...hidden), async (a, b, one) => {
    for (const isTerminal of [true, false]) {
      const { log, out } = setUp("debug", isTerminal);
      log("error", `${a}${one.text}${b}`, { what: `${b}${one.text}${a}` });
      await log.flush();
      expect(out.join("")).not.toContain(one.text);
    }
  });
  await fc.assert(law);
});

test("a long token of any kind is taken out", async () => {
  const { log, out } = setUp("info");
  log("info", `PUT /webhooks/1/${"aW50ZXJhY3Rpb24".repeat(8)}/callback failed`);
  await log.flush();
  expect(out.join("")).toContain("/webhooks/1/[long]/callback failed");
});

test("a log that cannot be written to breaks nothing", async () => {
  const log = createLog({
    setting: "info",
    hidden,
    isTerminal: false,
    write: () => undefined,
    lines: () => Promise.reject(new Error("no such library")),
  });
  log("error", "one");
  await expect(log.flush()).resolves.toBeUndefined();
});
