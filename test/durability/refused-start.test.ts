import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { withFolder } from "../support/child.ts";
import { readLines, runProgram, startProgram } from "../support/program.ts";

const AT = ["--simulate", "2026-11-28T19:30:00Z"];

test.each([
  { options: ["--jsn"], says: "--jsn" },
  { options: ["words"], says: "words" },
  { options: ["--data"], says: "--data" },
  { options: ["--data="], says: "--data needs a folder" },
  { options: ["--zone", "Mars/Base"], says: '"Mars/Base" is no IANA zone' },
  { options: ["--simulate", "tomorrow"], says: '"tomorrow" is no instant' },
  { options: ["--simulate", "2026-13-01T00:00Z"], says: "is no instant" },
])("$options is a wrong option: exit code 2 and how to say it", async ({ options, says }) => {
  const ended = await runProgram(options, ["left"]);
  expect(ended).toMatchObject({ code: 2, output: "" });
  expect(ended.complaint).toContain(says);
  expect(ended.complaint).toContain("--simulate ISO-INSTANT");
  expect(ended.complaint).not.toMatch(/^ {4}at /m);
});

test("--help says how, with exit code 0, and opens nothing", async () => {
  await withFolder(async (folder) => {
    const ended = await runProgram(["--help", "--data", folder], []);
    expect(ended).toMatchObject({ code: 0, complaint: "" });
    expect(ended.output).toContain("--simulate ISO-INSTANT");
    expect(await readdir(folder)).toEqual([]);
  });
});

test("a second process on a folder gets one sentence and exit code 1", async () => {
  await withFolder(async (folder) => {
    const first = await startProgram(["--data", folder]);
    try {
      first.say("left");
      await first.until((lines) => lines.length > 0);
      const second = await runProgram(["--data", folder, ...AT], ["left"]);
      expect(second).toEqual({
        code: 1,
        output: "",
        complaint:
          "Another Wetside is using this folder. Stop it first, or choose another folder.\n",
      });
      expect(await first.finish()).toMatchObject({ code: 0, complaint: "" });
    } finally {
      await first.kill();
    }
    expect(await runProgram(["--data", folder, ...AT], ["left"])).toMatchObject({ code: 0 });
  });
});

test.each([{ within: "" }, { within: "deeper" }])(
  "a folder that cannot be one is refused in a sentence, $within",
  async ({ within }) => {
    await withFolder(async (folder) => {
      await writeFile(join(folder, "file"), "mine");
      const ended = await runProgram(["--data", join(folder, "file", within)], ["left"]);
      expect(ended).toMatchObject({ code: 1, output: "" });
      expect(ended.complaint.trim().split("\n")).toHaveLength(1);
      expect(ended.complaint).toMatch(/^[A-Z].*\.\n$/);
      expect(await readFile(join(folder, "file"), "utf8")).toBe("mine");
    });
  },
);

test("a damaged snapshot is named, kept aside and explained; the bench is as it was", async () => {
  await withFolder(async (folder) => {
    const home = join(folder, "benches", "home");
    const options = ["--data", folder, "--json", ...AT];
    await runProgram(options, ["bottle developer 1 quart mixed yesterday", "us"]);
    const [before] = readLines((await runProgram(options, ["bottles"])).output);
    const name = (await readdir(home))
      .filter((file) => file.startsWith("snapshot-"))
      .sort()
      .at(-1);
    await writeFile(join(home, name ?? ""), "{ no");
    const [notice, after] = readLines((await runProgram(options, ["bottles"])).output);
    expect(notice).toMatchObject({ kind: "refusal", values: { reason: "data-folder" } });
    expect(notice?.title).toContain(`benches/home/${name} is damaged`);
    expect(notice?.title).toContain(`kept aside as benches/home/aside/${name}`);
    expect(await readFile(join(home, "aside", name ?? ""), "utf8")).toBe("{ no");
    expect(after).toEqual(before);
  });
});

test("a bench of which nothing can be read stops the start, and no file is touched", async () => {
  await withFolder(async (folder) => {
    const home = join(folder, "benches", "home");
    await mkdir(home, { recursive: true });
    await writeFile(join(home, "snapshot-1.json"), "{ no");
    await writeFile(join(home, "journal-1.jsonl"), "{ no");
    const ended = await runProgram(["--data", folder, ...AT], ["left"]);
    expect(ended).toMatchObject({ code: 1, output: "" });
    expect(ended.complaint).toContain("benches/home/snapshot-1.json");
    expect(ended.complaint).toContain("Nothing was changed");
    expect(await readFile(join(home, "snapshot-1.json"), "utf8")).toBe("{ no");
  });
});

test.each(["start", "chat"] as const)(
  "npm run %s ends well when its input does",
  async (script) => {
    await withFolder(async (folder) => {
      const ended = await runProgram([], ["left", "bottles"], script, { WETSIDE_DATA: folder });
      expect(ended).toMatchObject({ code: 0, complaint: "" });
      expect(ended.output).toContain("No clock is running.");
    });
  },
);

test("whoever reads the answers may leave before the end", async () => {
  await withFolder(async (folder) => {
    const program = await startProgram(["--data", folder, ...AT]);
    program.say(...Array.from({ length: 50 }, () => "help values"));
    program.hangUp();
    expect(await program.finish()).toMatchObject({ code: 0, complaint: "" });
  });
});
