import { expect, test } from "vitest";
import { eventually, withScene } from "./support/bot.ts";
import { ask, openBenchAt } from "./support/club.ts";

const POST = "POST /channels/:channel/messages";

/** Stopped for so long, s. A nonce is remembered for "the past few minutes" (Create Message, read). */
test.each([2, 150, 900])(
  "the answer that the live message is there lost before a restart of %i s: still only one",
  (down) =>
    withScene(async (scene) => {
      const { standIn, clock, start, pass } = scene;
      const club = await openBenchAt(scene);
      const live = () => club.posts.filter(({ silent }) => silent);
      // The plan goes out; the live message is made, and then silence, as when the line is cut.
      standIn.faults.next({ route: POST, delayMs: 1 });
      standIn.faults.next({ route: POST, drop: "hang", performed: true });
      const sentence = "start developer for 50 minutes tank north";
      club.ines.slash("say", { channel: "wet-bench", options: { sentence } });
      await eventually(() => live().length === 1);
      expect(live()).toHaveLength(1);
      expect(standIn.faults.left()).toBe(0);
      await club.bot.stop();
      clock.advance(down * 1000);
      await start();
      await pass(90);
      const shown = () => live()[0]?.content ?? "";
      await eventually(() => shown().includes("in since"));
      expect(live()).toHaveLength(1);
      expect(shown()).toContain("in since");
      expect(standIn.violations).toEqual([]);
    }),
);

test("a run whose live message was never tried gets one after a restart", () =>
  withScene(async (scene) => {
    const { standIn, clock, start, pass } = scene;
    const club = await openBenchAt(scene);
    await standIn.settled();
    await ask(scene, club.ines, "start developer for 50 minutes tank north");
    await club.bot.stop();
    clock.advance(120_000);
    await start();
    await pass(10);
    const live = () => club.posts.filter(({ silent }) => silent);
    await eventually(() => live().length > 0);
    expect(live()).toHaveLength(1);
    expect(standIn.violations).toEqual([]);
  }));
