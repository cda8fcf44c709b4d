import { readdir, readFile, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { benchSession } from "../../../test/support/bench-session.ts";
import { withFolder } from "../../../test/support/child.ts";
import { inventedSeason } from "../../../test/support/invented-season.ts";
import { livedRun } from "../../../test/support/lived-run.ts";
import { at, runOf, stageOf } from "../../../test/support/runs.ts";
import { chartOf } from "../../domain/session/chart.ts";
import { answer, type Reply } from "../../reply/reply.ts";
import { picturesIn } from "./pictures.ts";

const chart = chartOf(livedRun(runOf([stageOf()])), at(1000));
const shown: Reply = answer({
  title: "North",
  say: "North.",
  picture: { kind: "temperature-chart", name: "run-1", chart, zone: "UTC" },
});
const blank = async () => new Uint8Array([1, 2, 3]);

test("a reply without a picture passes as it is, and no folder is made", () =>
  withFolder(async (data) => {
    const plain = answer({ title: "North", say: "North." });
    expect(await picturesIn(data).drawn(plain)).toBe(plain);
    expect(await readdir(data)).toEqual([]);
  }));

test("a chart becomes four files, named by the run, told without a path of this machine", () =>
  withFolder(async (data) => {
    const reply = await picturesIn(data).drawn(shown);
    expect(reply.facts).toEqual({
      picture: "pictures/run-1.png",
      picture_svg: "pictures/run-1.svg",
      picture_phone: "pictures/run-1-phone.png",
      picture_phone_svg: "pictures/run-1-phone.svg",
    });
    expect(JSON.stringify(reply.facts) + reply.lines.join("")).not.toContain(data);
    for (const name of Object.values(reply.facts).map(String)) {
      const bytes = await readFile(join(data, name));
      expect(bytes.subarray(0, 4).toString("latin1")).toBe(
        name.endsWith(".svg") ? "<svg" : "\x89PNG",
      );
      expect((await stat(join(data, name))).mode & 0o077).toBe(0);
    }
  }));

test("asked for again, the new one takes the place of the old one and nothing is left beside it", () =>
  withFolder(async (data) => {
    const pictures = picturesIn(data, blank);
    await pictures.drawn(shown);
    await pictures.drawn(shown);
    expect((await readdir(join(data, "pictures"))).toSorted()).toEqual([
      "run-1-phone.png",
      "run-1-phone.svg",
      "run-1.png",
      "run-1.svg",
    ]);
  }));

test("a picture that cannot be drawn is said, and the words of the reply hold", () =>
  withFolder(async (data) => {
    const pictures = picturesIn(data, () => Promise.reject(new Error(`no thread in ${data}`)));
    const reply = await pictures.drawn(shown);
    expect(reply.cautions).toEqual(["No picture: it could not be drawn. The text holds."]);
    expect([reply.title, reply.facts.picture]).toEqual(["North", undefined]);
  }));

test("a folder that cannot be made is said by its reason, without its path", () =>
  withFolder(async (data) => {
    await writeFile(join(data, "pictures"), "in the way");
    const [caution] = (await picturesIn(data, blank).drawn(shown)).cautions;
    expect(caution).toMatch(/^No picture: it could not be kept \([A-Z]+\)\. The text holds\.$/);
  }));

test("a full disk is said in words", () =>
  withFolder(async (data) => {
    const full = () => Promise.reject(Object.assign(new Error("no space"), { code: "ENOSPC" }));
    const [caution] = (await picturesIn(data, full).drawn(shown)).cautions;
    expect(caution).toBe("No picture: the disk is full. The text holds.");
  }));

const record: Reply = answer({
  title: "North",
  say: "North.",
  document: { kind: "markdown", name: "2026-11-28-Łódź/../north", text: "# North\n" },
});

test("a document becomes a file beside the pictures, for its owner alone", () =>
  withFolder(async (data) => {
    const reply = await picturesIn(data).drawn(record);
    const name = String(reply.facts.document);
    expect(name).toMatch(/^records\/[^/]+\.md$/);
    expect(reply.lines).toEqual([`File: ${name}, in the data folder.`]);
    expect(await readFile(join(data, name), "utf8")).toBe("# North\n");
    expect((await stat(join(data, name))).mode & 0o077).toBe(0);
    expect(await readdir(data)).toEqual(["records"]);
  }));

test("a document that cannot be written is said, and the words of the reply hold", () =>
  withFolder(async (data) => {
    await writeFile(join(data, "records"), "in the way");
    const reply = await picturesIn(data).drawn(record);
    expect(reply.cautions[0]).toMatch(/^No file: it could not be kept \([A-Z]+\)\.$/);
    expect(reply.facts.document).toBe(undefined);
  }));

test("a season and a session are drawn like any picture", () =>
  withFolder(async (data) => {
    const { session, words } = benchSession();
    const pictures = picturesIn(data, blank);
    for (const picture of [
      { kind: "session", name: "run-1-summary", session, words },
      { kind: "season", name: "season-2026", season: inventedSeason(), words: ["A year."] },
    ] as const) {
      const reply = await pictures.drawn(answer({ title: "North", say: "North.", picture }));
      expect(reply.facts.picture).toBe(`pictures/${picture.name}.png`);
      expect(reply.cautions).toEqual([]);
    }
    expect(await readdir(join(data, "pictures"))).toHaveLength(8);
  }));
