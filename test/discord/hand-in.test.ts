import { expect, test } from "vitest";
import { type Scene, withScene } from "./support/bot.ts";
import { ask, BENCH, type Club, openBenchAt, withButton } from "./support/club.ts";

/** The bench's own archive, as it was given out, and the bench changed after it. */
async function exported(scene: Scene, club: Club): Promise<Uint8Array> {
  await ask(scene, club.ines, "bottle fixer 1 litre mixed today");
  await ask(scene, club.ines, "export everything");
  await scene.pass(1);
  const files = club.posts.flatMap(({ attachments }) => attachments);
  const [archive] = files.filter(({ name }) => name.endsWith(".zip"));
  if (archive === undefined) throw new Error("nothing was exported");
  await ask(scene, club.ines, "bottle blix 1 litre mixed today");
  return archive.bytes;
}

const last = (club: Club): string => club.ines.direct.messages.at(-1)?.content ?? "";

test("an owner hands an archive in, sees what it would replace, and says yes", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    const bytes = await exported(scene, club);
    ines.dm("restore everything", { files: [{ name: "old_bench.zip", bytes }] });
    await standIn.settled();
    expect(last(club)).toMatch(
      /Replace this bench by received\.zip\? Here and then gone: 2 bottles/,
    );
    expect((await ask(scene, ines, "bottles")).content).toContain("blix");
    ines.dm("restore everything", { files: [{ name: "old.ZIP", bytes }] });
    await standIn.settled();
    ines.press(withButton(ines.direct.messages, "yes"), "yes");
    await standIn.settled();
    const bottles = await ask(scene, ines, "bottles");
    expect(bottles.content).toContain("fixer");
    expect(bottles.content).not.toContain("blix");
    expect(standIn.violations).toEqual([]);
  }));

test("in the bench's channel a mention does it, and no says that all stays", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    const bytes = await exported(scene, club);
    ines.says(BENCH, `${club.app.mention} restore everything`, {
      files: [{ name: "a.zip", bytes }],
    });
    await standIn.settled();
    ines.press(withButton(club.posts, "no"), "no");
    await standIn.settled();
    expect((await ask(scene, ines, "bottles")).content).toContain("blix");
    expect(standIn.violations).toEqual([]);
  }));

test("a member's archive, another's kind of file, two at once, and a damaged one change nothing", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines, rui } = club;
    const bytes = await exported(scene, club);
    const before = JSON.stringify((await club.bot.record()).bench);
    rui.dm("restore everything", { files: [{ name: "a.zip", bytes }] });
    await standIn.settled();
    expect(rui.direct.messages.at(-1)?.content).toContain("I take no files here but an archive");
    const damaged = bytes.map((byte, at) => (at > 40 && at < 400 ? byte ^ 85 : byte));
    const tries = [
      { files: [{ name: "a.exe", bytes }], says: "attach one file that I exported" },
      {
        files: [
          { name: "a.zip", bytes },
          { name: "b.zip", bytes },
        ],
        says: "attach one file that I exported",
      },
      { files: [{ name: "a.zip", bytes: new Uint8Array([80, 75, 3, 4]) }], says: "" },
    ];
    for (const { files, says } of tries) {
      ines.dm("restore everything", { files });
      await standIn.settled();
      await scene.pass(2);
      expect(last(club)).toContain(says);
      expect(last(club)).not.toContain("Replace this bench");
    }
    // Said beside a file, other words are not done, as ever.
    ines.dm("bottle blix 2 litres mixed today", { files: [{ name: "a.zip", bytes }] });
    await standIn.settled();
    expect(last(club)).toContain("I take no files here but an archive");
    expect((await ask(scene, ines, "exports")).content).not.toContain("received.zip");
    // Damage further in is found before anything is written.
    ines.dm("restore everything", { files: [{ name: "a.zip", bytes: damaged }] });
    await standIn.settled();
    ines.dm("yes");
    await standIn.settled();
    expect(last(club)).not.toContain("Restored");
    expect(JSON.stringify((await club.bot.record()).bench)).toBe(before);
    expect(standIn.violations).toEqual([]);
  }));
