import { spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { WAKE_WORD } from "../../../src/speech/wake-word.ts";
import { placed } from "../listen.ts";
import { openSpeaker } from "../voices.ts";

const folder = mkdtempSync(join(tmpdir(), "wetside-voice-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const root = new URL("../../../", import.meta.url).pathname;
const standIn = (name: string): string => join(root, "test/speech/stand-ins", name);

/** Sentences with room between them, as the microphone gives them. */
function recording(said: readonly string[]): string {
  const speak = openSpeaker();
  const parts = speak(said, "rms", 1).map(({ samples }, at) => placed(samples, {}, at + 1));
  const gap = new Float32Array(16_000 * 1.5);
  const all = parts.flatMap((part) => [...part, ...gap]);
  const file = join(folder, "said.raw");
  writeFileSync(file, Buffer.from(Int16Array.from(all).buffer));
  return file;
}

/** Runs the voice channel on stand-ins until it has printed all that is waited for. */
async function voice(microphone: string, wanted: readonly string[], env = {}): Promise<string> {
  const child = spawn(process.execPath, [join(root, "src/voice.ts")], {
    cwd: root,
    stdio: ["pipe", "pipe", "pipe"],
    env: {
      ...process.env,
      WETSIDE_DATA: mkdtempSync(join(folder, "data-")),
      WETSIDE_MICROPHONE: microphone,
      WETSIDE_SPEAKER: `${process.execPath} ${standIn("player.ts")}`,
      ...env,
    },
  });
  let printed = "";
  const enough = Promise.withResolvers<void>();
  // Hearing takes some seconds to begin, and much longer on a busy machine.
  const late = setTimeout(enough.resolve, 180_000);
  child.stdout.on("data", (text: Buffer) => {
    printed += text.toString();
    if (wanted.every((one) => printed.includes(one))) enough.resolve();
  });
  let complaint = "";
  child.stderr.on("data", (text: Buffer) => {
    complaint += text.toString();
  });
  child.on("exit", (code, signal) => {
    printed += `\n(it ended: ${code ?? signal})\n${complaint}`;
    enough.resolve();
  });
  await enough.promise;
  clearTimeout(late);
  child.kill();
  return printed;
}

test("spoken words start a bath, and a question is answered, by microphone and loudspeaker", async () => {
  const file = recording([
    "what time is it",
    `${WAKE_WORD} start developer two rolls tank north`,
    "how much time is left",
  ]);
  const microphone = `${process.execPath} ${standIn("recorder.ts")} ${file}`;
  const wanted = [
    "Listening",
    "heard: what time is it",
    "North: developer, plan",
    "heard: how much",
  ];
  const printed = await voice(microphone, wanted);
  for (const one of wanted) expect(printed).toContain(one);
}, 200_000);

test("a model that is not there is said in a line, and typing goes on", async () => {
  const microphone = `${process.execPath} ${standIn("recorder.ts")} broken`;
  const printed = await voice(microphone, ["cannot hear any more", "microphone does not work"], {
    WETSIDE_SPEECH_MODEL: join(folder, "no-model"),
  });
  expect(printed).toContain("missing: English model");
  expect(printed).toContain("get it with: sudo apt-get install");
  expect(printed).toContain("Type instead; every clock goes on.");
}, 200_000);
