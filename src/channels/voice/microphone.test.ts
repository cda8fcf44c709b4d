import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { startMicrophone } from "./microphone.ts";

const recorder = new URL("../../../test/speech/stand-ins/recorder.ts", import.meta.url).pathname;
const device = (...args: readonly string[]) => ({
  command: [process.execPath, recorder, ...args],
  form: { rate: 16_000, channels: 1 },
});
const now = (): number => performance.now();

test("the samples of the recorder come through whole and in order", async () => {
  const folder = mkdtempSync(join(tmpdir(), "wetside-mic-"));
  const file = join(folder, "ramp.raw");
  const ramp = Int16Array.from({ length: 4000 }, (_, at) => at - 2000);
  writeFileSync(file, Buffer.from(ramp.buffer));
  const heard: number[] = [];
  const enough = Promise.withResolvers<void>();
  const microphone = startMicrophone({
    device: device(file, "320000"),
    now,
    fault: () => undefined,
    sound: (samples) => {
      heard.push(...samples);
      if (heard.length >= ramp.length) enough.resolve();
    },
  });
  await enough.promise;
  microphone.stop();
  rmSync(folder, { recursive: true });
  expect(heard.slice(0, ramp.length)).toEqual([...ramp]);
});

test.each([
  ["ends at once", device("broken"), "no such device"],
  ["is not there", { ...device(), command: ["./no-such-recorder"] }, "no-such-recorder"],
])("a recorder that %s is tried again, then given up with its reason", async (_, mic, why) => {
  const lines: string[] = [];
  const given = Promise.withResolvers<void>();
  const microphone = startMicrophone({
    device: mic,
    now,
    again: 5,
    sound: () => undefined,
    fault: (line, gone) => {
      lines.push(line);
      if (gone) given.resolve();
    },
  });
  await given.promise;
  microphone.stop();
  expect(lines.length).toBe(5);
  expect(lines[0]).toContain("try it again");
  expect(lines[4]).toContain(why);
});
