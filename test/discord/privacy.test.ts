import { expect, test } from "vitest";
import { eventually, withScene } from "./support/bot.ts";
import { ask, BENCH, openBenchAt } from "./support/club.ts";

const contents = (posts: readonly { readonly content: string }[]): string =>
  posts.map(({ content }) => content).join("\n");

test("who was taken off the list gets no reminder, no daily message and no call any more", () =>
  withScene(async (scene) => {
    const { standIn, pass, clock } = scene;
    const club = await openBenchAt(scene);
    const { ines, rui } = club;
    rui.slash("mine reminders", { channel: BENCH, options: { where: "dm" } });
    await ask(scene, rui, "remind me in 10 minutes to wash the tanks");
    await ask(scene, rui, "remind me tomorrow to look at the fixer");
    await ask(scene, rui, "start blix for 6 minutes tank north");
    await pass(31);
    ines.slash("wetside member remove", { channel: BENCH, options: { user: rui.id } });
    await standIn.settled();
    const before = club.posts.length;
    expect((await ask(scene, rui, "left")).content).toContain("for its members only");
    await pass(600);
    expect(club.posts.slice(before).flatMap(({ pinged }) => pinged)).toEqual([]);
    expect(contents(club.posts.slice(before))).toContain("North: pour out.");
    expect(contents(club.posts.slice(before))).toContain("Reminder: wash the tanks");
    clock.advance(20 * 3_600_000);
    await pass(6 * 3600);
    expect(contents(club.posts)).toContain("For Sunday 29 November 2026:");
    expect(contents(rui.direct.messages)).not.toMatch(/wash the tanks|fixer|North/);
    expect(standIn.violations).toEqual([]);
  }));

test("whose role was taken, or who left the server, is asked about before a message goes to them", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    const { ines, rui, tome } = club;
    const { id } = club.club.role("printers");
    ines.slash("wetside role", { channel: BENCH, options: { role: id } });
    standIn.giveRole("Film club", "Tome", "printers");
    await standIn.settled();
    for (const one of [rui, tome]) {
      await ask(scene, one, "hello");
      one.slash("mine reminders", { channel: BENCH, options: { where: "dm" } });
      await standIn.settled();
      await ask(scene, one, `remind me in 10 minutes to call ${one.name}`);
    }
    standIn.takeRole("Film club", "Tome", "printers");
    standIn.removeMember("Film club", "Rui");
    await pass(660);
    await eventually(() => /call Rui/.test(contents(club.posts.slice(-2))));
    expect(contents(club.posts)).toContain("Reminder: call Tome");
    expect(contents(club.posts)).toContain("Reminder: call Rui");
    expect(contents([...tome.direct.messages, ...rui.direct.messages])).not.toContain("call");
    expect(standIn.violations).toEqual([]);
  }));

test("names of benches are offered to nobody who may not open one", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    // As a server may set it up by itself: the command is offered to everyone.
    for (const command of club.app.commands()) {
      if (command.name === "wetside") command.default_member_permissions = null;
    }
    const offered = (person: typeof club.ines) =>
      person.autocomplete("wetside open", { channel: "general", option: "bench", typed: "" });
    const [owners, guests] = [offered(club.ines), offered(club.tome)];
    await standIn.settled();
    expect(owners.choices?.map(({ name }) => name)).toEqual(["#wet-bench"]);
    expect(guests.choices).toEqual([]);
    expect(standIn.violations).toEqual([]);
  }));

test("a role that shows the channel to everyone is told of like a channel that does", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    standIn.setRole("Film club", "@everyone", ["Administrator"]);
    await pass(1);
    expect(contents(club.ines.direct.messages)).toContain(
      "Everyone in the server can see #wet-bench",
    );
    expect(standIn.violations).toEqual([]);
  }));

test("taken off one bench, somebody is still heard directly at another they have the role of", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines, rui } = club;
    standIn.addChannel("Film club", {
      name: "second_bench",
      overwrites: [
        { for: "@everyone", deny: ["ViewChannel"] },
        { for: "bot", allow: ["ViewChannel", "SendMessages"] },
        { for: "Ines", allow: ["ViewChannel", "SendMessages"] },
      ],
    });
    ines.slash("wetside open", { channel: "second_bench" });
    await standIn.settled();
    // A label is plain text: nothing in it is escaped.
    ines.dm("left");
    await standIn.settled();
    expect(ines.direct.messages.at(-1)?.buttons.map(({ label }) => label)).toEqual([
      "#wet-bench",
      "#second_bench",
    ]);
    const role = club.club.role("printers").id;
    ines.slash("wetside role", { channel: "second_bench", options: { role } });
    standIn.giveRole("Film club", "Rui", "printers");
    ines.slash("wetside member remove", { channel: BENCH, options: { user: rui.id } });
    await standIn.settled();
    rui.dm("left");
    await standIn.settled();
    expect(contents(rui.direct.messages)).toContain("No clock is running");
    expect(standIn.violations).toEqual([]);
  }));
