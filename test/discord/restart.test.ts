import { expect, test } from "vitest";
import { eventually, withScene } from "./support/bot.ts";
import { ask, BENCH, openBenchAt, withButton } from "./support/club.ts";

const DAY = 86_400;

test("stopped in the middle of a run it goes on: nothing lost, nothing twice, the same live message", () =>
  withScene(async (scene) => {
    const { standIn, pass, start, clock } = scene;
    const club = await openBenchAt(scene);
    const { ines, bot } = club;
    await ask(scene, ines, "start blix for 6 minutes tank north");
    const live = club.posts.find(({ silent }) => silent);
    await pass(60);
    await bot.stop();
    const before = club.posts.length;
    clock.advance(120_000);
    await start();
    await pass(2);
    const missed = club.posts.slice(before);
    expect(missed).toHaveLength(1);
    expect(missed[0]?.content).toMatch(/not told in time/);
    expect(missed[0]?.pinged).toEqual(["Ines"]);
    await pass(300);
    const later = club.posts.slice(before + 1).map(({ content }) => content.split("\n")[0] ?? "");
    expect(later.some((one) => one.startsWith("North: pour out."))).toBe(true);
    expect(new Set(later).size).toBe(later.length);
    const shown = () => club.posts.find(({ id }) => id === live?.id)?.content ?? "";
    await eventually(() => shown().includes("No clock is running"));
    expect(shown()).toContain("No clock is running");
    expect(club.posts.filter(({ silent }) => silent)).toHaveLength(1);
    expect(standIn.violations).toEqual([]);
  }));

test("stopped between two cues for a moment, neither is told twice", () =>
  withScene(async (scene) => {
    const { standIn, pass, start } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    let { bot } = club;
    await ask(scene, ines, "start blix for 6 minutes tank north");
    for (let turn = 0; turn < 6; turn += 1) {
      await pass(50);
      await bot.stop();
      bot = await start();
    }
    await pass(200);
    const rang = club.posts.filter(({ pinged }) => pinged.length > 0);
    expect(rang.map(({ content }) => content).join("\n")).not.toContain("not told in time");
    const keys = rang.map(({ at, content }) => `${at} ${content}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(rang.length).toBeGreaterThan(3);
    expect(standIn.violations).toEqual([]);
  }));

test("a reminder comes days later where each wants it; its buttons work after a restart", () =>
  withScene(async (scene) => {
    const { standIn, start, clock } = scene;
    const club = await openBenchAt(scene);
    const { ines, rui, bot } = club;
    const chosen = rui.slash("mine reminders", { channel: BENCH, options: { where: "dm" } });
    await standIn.settled();
    expect(chosen).toMatchObject({ ephemeral: true });
    await ask(scene, ines, "remind me in 3 days at 18:00 to order fixer");
    await ask(scene, rui, "remind me in 3 days at 18:00 to wash the tanks");
    await bot.stop();
    // Three days with the program down but for the last hour.
    clock.advance((3 * DAY + 8 * 3600) * 1000);
    const second = await start();
    await scene.pass(2 * 3600);
    const reminder = withButton(club.posts, "snooze");
    expect(reminder.content).toContain("Reminder: order fixer");
    expect(reminder.pinged).toEqual([]);
    expect(club.posts.map(({ content }) => content).join()).not.toContain("Reminder: wash");
    const direct = withButton(rui.direct.messages, "done");
    expect(direct.content).toContain("Reminder: wash the tanks");

    await second.stop();
    await start();
    const snoozed = ines.press(reminder, "snooze");
    const done = rui.press(direct, "done");
    await standIn.settled();
    expect(snoozed.content).toContain("again: order fixer");
    expect(done.content).toContain("wash the tanks");
    const again = rui.press(direct, "done");
    await standIn.settled();
    expect(again.content).toBeDefined();
    expect(standIn.violations).toEqual([]);
  }));

test("a reminder for who takes no direct messages comes in the channel", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    const { rui } = club;
    rui.slash("mine reminders", { channel: BENCH, options: { where: "dm" } });
    rui.closesDms();
    await ask(scene, rui, "remind me in 2 minutes to rinse the reels");
    await pass(130);
    expect(club.posts.at(-1)?.content).toContain("Reminder: rinse the reels");
    expect(standIn.violations).toEqual([]);
  }));

test("the daily message goes to the channel and, beside it, to whoever wants it directly", () =>
  withScene(async (scene) => {
    const { standIn, clock } = scene;
    const club = await openBenchAt(scene);
    const { ines, rui } = club;
    rui.slash("mine reminders", { channel: BENCH, options: { where: "dm" } });
    await ask(scene, ines, "remind me tomorrow to look at the fixer");
    clock.advance(20 * 3_600_000);
    await scene.pass(6 * 3600);
    expect(club.posts.at(-1)?.content).toContain("For Sunday 29 November 2026:");
    expect(rui.direct.messages.at(-1)?.content).toContain("For Sunday 29 November 2026:");
    expect(standIn.violations).toEqual([]);
  }));
