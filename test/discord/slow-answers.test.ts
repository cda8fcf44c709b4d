import { expect, test } from "vitest";
import { type Bot, eventually, type Scene, withScene } from "./support/bot.ts";
import { ask, BENCH, type Club, nameGroup, openBenchAt, withButton } from "./support/club.ts";

/** The bot again, with a disk that takes nothing until `free` is called. */
async function withSlowDisk(
  scene: Scene,
  { bot }: { readonly bot: Bot },
): Promise<{ readonly free: () => void }> {
  await bot.stop();
  const waiting: (() => void)[] = [];
  let isFree = true;
  await scene.start({
    slow: () => (isFree ? Promise.resolve() : new Promise<void>((done) => void waiting.push(done))),
  });
  isFree = false;
  return {
    free() {
      isFree = true;
      for (const done of waiting) done();
    },
  };
}

/** Time enough for an answer to be promised, in real time and by the clock. */
async function promised({ clock }: Scene): Promise<void> {
  for (let turn = 0; turn < 15; turn += 1) {
    await new Promise((resolve) => setTimeout(resolve, 10));
    await clock.pass(100);
  }
}

const said = (club: Club): string => club.posts.map(({ content }) => content).join("\n");

test("an answer that is there only when its interaction is over goes to the channel, whole", () =>
  withScene(async (scene) => {
    const { standIn, clock } = scene;
    const club = await openBenchAt(scene);
    const disk = await withSlowDisk(scene, club);
    club.ines.slash("say", {
      channel: BENCH,
      options: { sentence: "bottle fixer 1 litre mixed today" },
    });
    await promised(scene);
    // An interaction lives for 15 minutes (Discord's documentation, read for the stand-in).
    await clock.pass(16 * 60_000);
    disk.free();
    await eventually(() => said(club).includes("Acorn"));
    expect(said(club).match(/Acorn, the ring: fixer/g)).toHaveLength(1);
    standIn.takeViolations();
  }));

test("a refusal that took long is still for its own person alone", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const disk = await withSlowDisk(scene, club);
    club.ines.slash("say", {
      channel: BENCH,
      options: { sentence: "bottle fixer 1 litre mixed today" },
    });
    const refused = club.rui.slash("say", {
      channel: BENCH,
      options: { sentence: "set zone UTC" },
    });
    await promised(scene);
    disk.free();
    await eventually(() => refused.responses.some(({ ephemeral }) => ephemeral));
    await standIn.settled();
    expect(refused.responses.map(({ ephemeral }) => ephemeral)).toEqual([true]);
    expect(refused.content).toContain("Only the owner of the bench");
    expect(said(club)).toContain("Acorn");
    expect(standIn.violations).toEqual([]);
  }));

test("a form that could not be opened in time says so, and opens at the next press", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { rui } = club;
    rui.dm("learn a sheet");
    await standIn.settled();
    await scene.clock.pass(600_000);
    standIn.faults.next({ route: "GET /guilds/:guild/members/:user", delayMs: 400 });
    const form = withButton(rui.direct.messages, "form");
    const pressed = rui.press(form, "form");
    await promised(scene);
    await eventually(() => pressed.content !== "");
    expect(pressed.content).toContain("Press form again");
    const again = rui.press(form, "form");
    await standIn.settled();
    expect(again.modal).toBeDefined();
    expect(standIn.violations).toEqual([]);
  }));

test.each(["yes", "yes please", "ok"])("a preview is said yes to by /say as well: %s", (word) =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    nameGroup(scene, ines);
    await ask(scene, ines, "start blix for 1 minute tank north");
    await pass(300);
    await ask(scene, ines, "share");
    const told = await ask(scene, ines, word);
    expect(told.content).toContain("Shared in");
    const group = club.club.channel("film-group");
    expect(group.messages).toHaveLength(1);
    // What nobody shows any more is neither shared nor shown as if it were.
    const second = await ask(scene, ines, word);
    expect(second.content).not.toContain("planned");
    await ask(scene, ines, "share");
    await ask(scene, ines, "no");
    expect((await ask(scene, ines, word)).content).not.toContain("Shared in");
    expect(group.messages).toHaveLength(1);
    expect(standIn.violations).toEqual([]);
  }),
);
