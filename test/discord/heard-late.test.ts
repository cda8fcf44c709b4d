import { expect, test } from "vitest";
import { eventually, type Scene, withScene } from "./support/bot.ts";
import { ask, BENCH, openBenchAt, withButton } from "./support/club.ts";

/** The line is lost for so many s of the bench's time, while people go on. */
async function away({ standIn, clock }: Scene, s: number, meanwhile: () => void): Promise<void> {
  const sockets = standIn.socket.count();
  standIn.socket.drop();
  await eventually(() => standIn.socket.count() < sockets);
  meanwhile();
  await clock.pass(s * 1000);
  await eventually(() => standIn.socket.count() === sockets);
  await standIn.settled();
}

test("a word at the sink said while the line was lost is not taken as said now", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene, { messageContent: true });
    const { ines } = club;
    await ask(scene, ines, "start developer for 6 minutes tank north");
    await pass(31);
    const before = JSON.stringify((await club.bot.record()).bench.runs);
    await away(scene, 12, () => ines.says(BENCH, "in"));
    const late = () => club.posts.find(({ content }) => content.includes("heard that"));
    await eventually(() => late() !== undefined);
    expect(late()?.content).toMatch(/12 s late, so I did nothing with it\. Say it again/);
    expect(late()?.content).toContain("North: developer is being poured");
    expect(late()?.buttons.map(({ label }) => label)).toContain("in");
    const inAt = (json: string): unknown => /"inAt":\d+/.exec(json)?.[0];
    expect(inAt(JSON.stringify((await club.bot.record()).bench.runs))).toBe(inAt(before));
    // Said again, it counts; what has no moment was heard all the same.
    ines.says(BENCH, "in");
    await standIn.settled();
    expect(club.posts.map(({ content }) => content).join()).toContain("North: developer in at");
    await away(scene, 12, () => ines.says(BENCH, "remind me tomorrow to order fixer"));
    await eventually(() => club.posts.at(-1)?.content.includes("order fixer") === true);
    expect(club.posts.at(-1)?.author).toBe("Bench bot");
    expect(standIn.violations).toEqual([]);
  }));

test("a button whose user was told that it failed is not pressed behind their back", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    await ask(scene, ines, "start developer for 6 minutes tank north");
    await pass(31);
    const button = withButton(club.posts, "in");
    let posts = 0;
    await away(scene, 12, () => {
      ines.press(button, "in");
      posts = club.posts.length;
    });
    await pass(1);
    const since = club.posts.slice(posts).map(({ content }) => content);
    expect(since.join()).not.toContain("developer in at");
    expect(Object.values((await club.bot.record()).bench.runs)[0]?.stages[0]?.inAt).toBe(undefined);
    // Nobody can acknowledge it any more: that is the lost line's doing.
    standIn.takeViolations();
  }));
