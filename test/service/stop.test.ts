import { spawnSync } from "node:child_process";
import { closeSync, existsSync, openSync } from "node:fs";
import { readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { withFolder } from "../support/child.ts";
import {
  type DiscordService,
  TOKEN,
  until,
  withDiscordService,
} from "../support/discord-service.ts";
import { commandLine, runProgram, type Script, startProgram } from "../support/program.ts";

/** The service with film in the tank at its bench. */
const withWetFilm = (
  play: (scene: DiscordService & { readonly data: string }) => Promise<void>,
): Promise<void> =>
  withFolder((data) =>
    withDiscordService(data, async (service) => {
      for (const sentence of ["start blix for 2 hours tank north", "ready", "in"]) {
        await service.say(sentence);
      }
      await until(() => service.posts().length > 0);
      await play({ ...service, data });
    }),
  );

const withFolders = (use: (one: string, other: string) => Promise<void>): Promise<void> =>
  withFolder((one) => withFolder((other) => use(one, other)));

const leaving = (posts: readonly string[]): readonly string[] =>
  posts.filter((post) => post.includes("asked to leave"));

test("asked to leave while film is wet: said at the bench with its clock times, kept, exit code 0", () =>
  withWetFilm(async ({ standIn, program, posts, data }) => {
    const ended = await program.terminate();
    expect(ended.code).toBe(0);
    expect(leaving(posts())).toHaveLength(1);
    expect(leaving(posts())[0]).toMatch(/North: blix is in; pour out \d\d:\d\d:\d\d/);
    const lines = ended.complaint.trim().split("\n");
    for (const line of lines) {
      expect(JSON.parse(line)).toMatchObject({ level: "info", msg: expect.any(String) });
    }
    expect(ended.complaint).toContain("Asked to leave.");
    expect(ended.complaint + ended.output).not.toContain(TOKEN);
    // What is left behind: no heartbeat and no lock.
    expect(await readdir(data)).toEqual(["benches", "discord"]);
    expect(standIn.violations).toEqual([]);
  }));

test("where Discord is down it leaves all the same", () =>
  withWetFilm(async ({ standIn, program, posts }) => {
    await standIn.socket.down();
    const ended = await program.terminate();
    expect(ended.code).toBe(0);
    expect(leaving(posts())).toEqual([]);
    standIn.takeViolations();
  }));

test("a second signal ends it at once, and nothing that was answered is lost", () =>
  withWetFilm(async ({ standIn, program, data }) => {
    standIn.faults.next({ route: "POST /channels/:channel/messages", drop: "hang" });
    program.signal("SIGTERM");
    await until(() => standIn.faults.left() === 0);
    const ended = await program.terminate();
    expect(ended.code).toBe(143);
    const [bench = ""] = (await readdir(`${data}/benches`)).filter((name) => name !== "home");
    expect(bench).not.toBe("");
    const health = await runProgram([], [], "health", { WETSIDE_DATA: data });
    expect(health.output).toMatch(/^Well|^Stuck/);
    const again = await runProgram([], ["left"], "start", { WETSIDE_DATA: data });
    expect(again).toMatchObject({ code: 0 });
  }));

test("in a terminal's place: told on the output, and the same run is there afterwards", () =>
  withFolder(async (data) => {
    const program = await startProgram([], "start", { WETSIDE_DATA: data });
    program.say("start blix for 2 hours tank north", "ready", "in");
    await program.until((lines) => lines.some((line) => line.includes("blix in at")));
    const ended = await program.terminate();
    expect(ended.code).toBe(0);
    expect(ended.output).toMatch(/asked to leave[\s\S]*North: blix is in; pour out \d\d:\d\d:\d\d/);
    const again = await startProgram([], "start", { WETSIDE_DATA: data });
    try {
      again.say("left");
      await again.until((lines) => lines.some((line) => /North: blix, .*left/.test(line)));
    } finally {
      await again.terminate();
    }
  }));

test("with no run open it leaves without a word", () =>
  withFolder(async (data) => {
    const program = await startProgram([], "start", { WETSIDE_DATA: data });
    program.say("left");
    await program.until((lines) => lines.length > 0);
    const ended = await program.terminate();
    expect(ended.code).toBe(0);
    expect(ended.output).not.toContain("leave");
  }));

test("health: well while it runs, not running once it left, stuck after a kill", () =>
  withFolder(async (data) => {
    const health = () => runProgram([], [], "health", { WETSIDE_DATA: data });
    expect(await health()).toMatchObject({
      code: 1,
      output: expect.stringContaining("Not running"),
    });
    const program = await startProgram([], "start", { WETSIDE_DATA: data });
    program.say("left");
    await program.until((lines) => lines.length > 0);
    expect(await health()).toMatchObject({ code: 0, output: expect.stringContaining("Well") });
    await program.terminate();
    expect(await health()).toMatchObject({
      code: 1,
      output: expect.stringContaining("Not running"),
    });
    const other = await startProgram([], "start", { WETSIDE_DATA: data });
    other.say("left");
    await other.until((lines) => lines.length > 0);
    await until(() => existsSync(join(data, "heartbeat.json")));
    await other.kill();
    // As a minute later: nobody has written since.
    const beat = JSON.parse(await readFile(join(data, "heartbeat.json"), "utf8"));
    await writeFile(
      join(data, "heartbeat.json"),
      JSON.stringify({ every: 100, at: beat.at - 60_000 }),
    );
    expect(await health()).toMatchObject({ code: 1, output: expect.stringContaining("Stuck") });
  }));

/** A script of the program whose output goes to a device that is always full. */
async function ontoFullDisk(
  script: Script,
  data: string,
  line: string,
  more: readonly string[] = [],
) {
  const words = await commandLine(script);
  const full = openSync("/dev/full", "w");
  const ended = spawnSync(process.execPath, [...words, ...more], {
    cwd: join(import.meta.dirname, "../.."),
    env: { ...process.env, WETSIDE_DATA: data },
    input: `${line}\n`,
    stdio: ["pipe", full, "pipe"],
    encoding: "utf8",
  });
  closeSync(full);
  return ended;
}

// The device that is always full is Linux's.
test.skipIf(process.platform !== "linux")(
  "a fault nobody caught ends it with exit code 1, told by kind and place alone",
  () =>
    withFolder(async (data) => {
      const { status, stderr } = await ontoFullDisk("start", data, "left");
      expect(status).toBe(1);
      expect(JSON.parse(stderr)).toMatchObject({
        level: "error",
        msg: expect.stringMatching(/^I must stop: Error \(ENOSPC\) at src\/[\w/.-]+:\d+\.$/),
      });
      expect(stderr).not.toContain(data);
      expect(await runProgram([], ["left"], "start", { WETSIDE_DATA: data })).toMatchObject({
        code: 0,
      });
    }),
);

// The device that is always full is Linux's.
test.skipIf(process.platform !== "linux")(
  "an output that cannot be written ends it with one sentence without a path, and all is kept",
  () =>
    withFolders(async (data, copies) => {
      for (const script of ["chat", "doctor", "health", "backup"] as const) {
        const more = script === "backup" ? [join(copies, "one")] : [];
        const { status, stderr } = await ontoFullDisk(
          script,
          data,
          "bottle fixer 1 litre mixed today",
          more,
        );
        const says = "I cannot write to the standard output: the disk it goes to is full.\n";
        expect({ script, status, stderr }).toEqual({ script, status: 1, stderr: says });
      }
      const { output } = await runProgram(["--data", data], ["bottles"]);
      expect(output).toContain("fixer");
    }),
);

test("a level that is none is told in a sentence", () =>
  withFolder(async (data) => {
    const ended = await runProgram([], [], "start", { WETSIDE_DATA: data, WETSIDE_LOG: "loud" });
    expect(ended.code).toBe(1);
    expect(JSON.parse(ended.complaint)).toMatchObject({
      level: "error",
      msg: "WETSIDE_LOG is one of silent, error, warn, info, debug.",
    });
  }));
