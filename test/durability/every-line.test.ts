import { join } from "node:path";
import { expect, test } from "vitest";
import { readInstant } from "../../src/channels/console/read-instant.ts";
import { readMove } from "../../src/channels/console/time-travel.ts";
import { isoInstant } from "../../src/domain/timing/clock-text.ts";
import { type Instant, instant } from "../../src/domain/units/quantity.ts";
import { withFolder } from "../support/child.ts";
import { LONG_SCRIPT, LONG_SCRIPT_AT } from "../support/long-script.ts";
import { type Line, readLines, runProgram } from "../support/program.ts";
import { simulate } from "../support/simulate.ts";

type Timed = { readonly message: string; readonly at: Instant; readonly after: Instant };

/** Each message with the instant at which it is read, and the one the clock then stands at. */
function timed(messages: readonly string[]): readonly Timed[] {
  let zone = "Europe/Paris";
  let now = readInstant(LONG_SCRIPT_AT, "UTC") ?? instant(0);
  return messages.map((message) => {
    const at = now;
    zone = /^set zone (\S+)$/.exec(message)?.[1] ?? zone;
    const move = message.startsWith("@") ? readMove(message, now, zone) : { to: now };
    if ("to" in move) now = move.to;
    return { message, at, after: now };
  });
}

/** The same script with every long move made in two steps. */
const halved = (script: readonly Timed[]): readonly Timed[] =>
  script.flatMap(({ message, at, after }) => {
    if (after - at < 2000) return { message, at, after };
    const middle = instant(Math.floor((at + after) / 2));
    return [
      { message: `@${isoInstant(middle)}`, at, after: middle },
      { message: `@${isoInstant(after)}`, at: middle, after },
    ];
  });

const SCRIPT = timed(LONG_SCRIPT);

test("a restart before every line and in the middle of every move changes not a word", async () => {
  await withFolder(async (folder) => {
    const whole = await simulate(join(folder, "whole"), LONG_SCRIPT_AT, LONG_SCRIPT);
    const pieces: string[] = [];
    for (const { message, at } of halved(SCRIPT)) {
      pieces.push(...(await simulate(join(folder, "pieces"), isoInstant(at), [message])));
    }
    expect(readLines(pieces.join(""))).toEqual(readLines(whole.join("")));
  });
});

test("two processes on one folder say together what one would have said", async () => {
  await withFolder(async (folder) => {
    const run = async (name: string, from: number, to: number): Promise<readonly Line[]> => {
      const at = isoInstant(SCRIPT[from]?.at ?? instant(0));
      const options = ["--data", join(folder, name), "--json", "--simulate", at];
      // The zone is given once; the script sets another one later.
      const zone = from === 0 ? ["--zone", "Europe/Paris"] : [];
      const ended = await runProgram([...options, ...zone], LONG_SCRIPT.slice(from, to));
      expect(ended).toMatchObject({ code: 0, complaint: "" });
      return readLines(ended.output);
    };
    const end = LONG_SCRIPT.length;
    const whole = await run("whole", 0, end);
    for (const split of [3, 24, 48]) {
      const first = await run(`at-${split}`, 0, split);
      expect([...first, ...(await run(`at-${split}`, split, end))]).toEqual(whole);
    }
  });
});
