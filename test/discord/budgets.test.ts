import { expect, test } from "vitest";
import { type Scene, withScene } from "./support/bot.ts";
import { ask, BENCH, openBenchAt, withButton } from "./support/club.ts";

type Club = Awaited<ReturnType<typeof openBenchAt>>;

/** More than anybody's hands could say at one moment. */
const FLOOD = 30;
/** So many words at once are heard (src/channels/discord/people/budget.ts). */
const HEARD = 12;
const TOO_MUCH = "more than I can follow";

/** Rui says one thing again and again, without a moment passing; how often it was heard. */
type Way = {
  readonly way: string;
  readonly flood: (scene: Scene, club: Club) => Promise<number>;
};

/** What the bot answered to one way in, one after the other. */
async function answersTo(
  scene: Scene,
  say: () => { readonly content: string } | undefined,
): Promise<number> {
  let heard = 0;
  for (let count = 0; count < FLOOD; count += 1) {
    const said = say();
    await scene.standIn.settled();
    if (said !== undefined && !said.content.includes(TOO_MUCH)) heard += 1;
  }
  return heard;
}

/** The same where the answers are messages of a channel; what is said beyond the budget is one. */
async function postsTo(
  scene: Scene,
  posts: () => readonly { readonly author: string; readonly content: string }[],
  say: () => unknown,
): Promise<number> {
  const before = posts().length;
  for (let count = 0; count < FLOOD; count += 1) say();
  const answered = () =>
    posts()
      .slice(before)
      .filter(({ author }) => author === "Bench bot");
  // They go out in real time, as fast as Discord takes them.
  for (let turn = 0; turn < 400 && answered().length < HEARD; turn += 1) {
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  await scene.pass(0.001);
  await scene.standIn.settled();
  const answers = answered();
  const told = answers.filter(({ content }) => content.includes(TOO_MUCH));
  expect(told.length).toBeLessThanOrEqual(1);
  return answers.length - told.length;
}

const ways: readonly Way[] = [
  {
    way: "a slash command",
    flood: (scene, { rui }) => answersTo(scene, () => rui.slash("left", { channel: BENCH })),
  },
  {
    way: "/say",
    flood: (scene, { rui }) =>
      answersTo(scene, () =>
        rui.slash("say", { channel: BENCH, options: { sentence: "note one more" } }),
      ),
  },
  {
    way: "a slash command in a direct message",
    flood: (scene, { rui }) => answersTo(scene, () => rui.slash("left", { channel: "dm" })),
  },
  {
    way: "/mine",
    flood: (scene, { rui }) =>
      answersTo(scene, () =>
        rui.slash("mine reminders", { channel: BENCH, options: { where: "dm" } }),
      ),
  },
  {
    way: "first aid by its command",
    flood: (scene, { rui }) =>
      answersTo(scene, () => rui.slash("emergency", { channel: BENCH, options: { kind: "eyes" } })),
  },
  {
    way: "a button",
    flood: async (scene, club) => {
      await ask(scene, club.ines, "start blix for 6 minutes tank north");
      const message = withButton(club.posts, "ready");
      const id = message.buttons.find(({ label }) => label === "ready")?.customId ?? "";
      // The first press takes the buttons away: one on another's screen is pressed all the same.
      return answersTo(scene, () => club.rui.press(message, id, { forged: true }));
    },
  },
  {
    way: "a button made up",
    flood: async (scene, club) => {
      await ask(scene, club.ines, "start blix for 6 minutes tank north");
      const message = withButton(club.posts, "ready");
      return answersTo(scene, () => club.rui.press(message, "nonsense", { forged: true }));
    },
  },
  {
    way: "words in the channel",
    flood: (scene, club) =>
      postsTo(
        scene,
        () => club.posts,
        () => club.rui.says(BENCH, "left"),
      ),
  },
  {
    way: "a mention",
    flood: (scene, club) =>
      postsTo(
        scene,
        () => club.posts,
        () => club.rui.says(BENCH, `${club.app.mention} left`),
      ),
  },
  {
    way: "a direct message",
    flood: (scene, club) =>
      postsTo(
        scene,
        () => club.rui.direct.messages,
        () => club.rui.dm("left"),
      ),
  },
  {
    way: "cries for first aid",
    flood: (scene, club) =>
      postsTo(
        scene,
        () => club.rui.direct.messages,
        () => club.rui.dm("eyes"),
      ),
  },
  {
    way: "a direct message of somebody at no bench",
    flood: (scene, club) =>
      postsTo(
        scene,
        () => club.tome.direct.messages,
        () => club.tome.dm("left"),
      ),
  },
];

test.each(ways)("$way: heard twelve times at once and no more, and others as ever", ({ flood }) =>
  withScene(async (scene) => {
    const club = await openBenchAt(scene, { messageContent: true });
    expect(await flood(scene, club)).toBe(HEARD);
    expect((await ask(scene, club.ines, "left")).content).not.toContain(TOO_MUCH);
    await scene.pass(10);
    expect((await ask(scene, club.rui, "left")).content).not.toContain(TOO_MUCH);
    expect(scene.standIn.violations).toEqual([]);
  }),
);

test("one purse for all ways in", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene, { messageContent: true });
    const { ines, rui } = club;
    await ask(scene, ines, "start blix for 6 minutes tank north");
    const learn = rui.slash("learn", { channel: BENCH });
    await standIn.settled();
    for (let count = 1; count < HEARD; count += 1) await ask(scene, rui, "left");
    const opens = learn.responses.flatMap(({ buttons }) => buttons).length;
    expect(opens).toBeGreaterThan(0);
    const before = JSON.stringify((await club.bot.record()).bench);
    const pressed = rui.press(withButton(club.posts, "ready"), "ready");
    await standIn.settled();
    expect(pressed.content).toContain(TOO_MUCH);
    rui.says(BENCH, "stop");
    rui.dm("stop");
    await standIn.settled();
    expect(JSON.stringify((await club.bot.record()).bench)).toBe(before);
    // First aid has a purse of its own.
    const aid = rui.slash("emergency", { channel: BENCH, options: { kind: "eyes" } });
    await standIn.settled();
    expect(aid.content).toMatch(/rinse|water/i);
    expect(standIn.violations).toEqual([]);
  }));

test("a form is paid for like any word", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { rui } = club;
    const asked = rui.slash("learn", { channel: BENCH });
    await standIn.settled();
    const [message] = asked.responses;
    const label = message?.buttons.find(({ label: one }) => /form/i.test(one ?? ""))?.label ?? "";
    const opened = rui.press({ id: message?.id ?? "" }, label);
    await standIn.settled();
    const form = opened.modal;
    if (form === undefined) throw new Error("No form was opened");
    for (let count = 2; count < HEARD; count += 1) await ask(scene, rui, "left");
    const ids = form.components.flatMap((one) =>
      "component" in one && "custom_id" in one.component ? [one.component.custom_id] : [],
    );
    const sent = rui.submits(form, Object.fromEntries(ids.map((one) => [one, "garden"])));
    await standIn.settled();
    expect(sent.content).toContain(TOO_MUCH);
    expect(standIn.violations).toEqual([]);
  }));

test("options being typed have a purse of their own, wide enough for quick fingers", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines, rui } = club;
    await ask(scene, ines, "bottle blix 1 litre mixed today");
    let offered = 0;
    for (let count = 0; count < 60; count += 1) {
      const typing = rui.autocomplete("bottle fill", {
        channel: BENCH,
        option: "bottle",
        typed: "Ac",
      });
      await standIn.settled();
      if ((typing.choices ?? []).length > 0) offered += 1;
    }
    expect(offered).toBe(40);
    expect((await ask(scene, rui, "left")).content).not.toContain(TOO_MUCH);
    expect(standIn.violations).toEqual([]);
  }));
