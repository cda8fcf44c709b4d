import { expect, test } from "vitest";
import { eventually, withScene } from "./support/bot.ts";
import { ask, BENCH, foundClub, nameGroup, openBenchAt, withButton } from "./support/club.ts";

test("a bench is opened in a private channel alone, by who manages the server", () =>
  withScene(async (scene) => {
    const { standIn, start } = scene;
    const { ines, club } = foundClub(scene);
    await start();
    const general = ines.slash("wetside open", { channel: "general" });
    await standIn.settled();
    expect(general).toMatchObject({ ephemeral: true });
    expect(general.content).toContain("Everyone in the server can see this channel");
    const early = ines.slash("wetside show", { channel: BENCH });
    await standIn.settled();
    expect(early.content).toContain("no bench in this channel");

    standIn.denyPermission(BENCH, ["SendMessages"]);
    const mute = ines.slash("wetside open", { channel: BENCH });
    await standIn.settled();
    expect(mute.content).toContain("Send Messages, for plans");
    standIn.allowPermission(BENCH, ["SendMessages"]);

    const open = ines.slash("wetside open", { channel: BENCH, options: { zone: "Europe/Madrid" } });
    await standIn.settled();
    expect(open).toMatchObject({ ephemeral: true });
    expect(open.content).toContain("This channel is not visible to @everyone");
    expect(open.content).toContain("Europe/Madrid");
    const again = ines.slash("wetside open", { channel: BENCH });
    await standIn.settled();
    expect(again.content).toContain("There is a bench in this channel already");
    expect(club.channel(BENCH).messages).toEqual([]);
    expect(standIn.violations).toEqual([]);
  }));

test("commands are registered once, and again only when they changed", () =>
  withScene(async (scene) => {
    const { app } = foundClub(scene);
    const first = await scene.start();
    await first.stop();
    await scene.start();
    expect(app.registrations).toMatchObject([{ scope: "global" }]);
    expect(scene.standIn.violations).toEqual([]);
  }));

test("a whole run: the plan before the first pour, every cue on time, one live message, the record shared", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    ines.slash("wetside group-channel", {
      channel: BENCH,
      options: { channel: standIn.channel("film-group").id },
    });
    await ask(scene, ines, "use sheet saltmarsh demo");
    await ask(scene, ines, "bottle developer 1 litre mixed today");
    await ask(scene, ines, "note the red thermometer is at Rui's");
    const before = club.posts.length;
    await ask(scene, ines, "start saltmarsh two rolls of 120 tank north");
    await eventually(() => club.posts.length === before + 3);
    const made = club.posts.slice(before);
    const answer = made.find(({ content }) => content.includes("First pour"));
    const plan = made.find(({ content }) => content.includes("pour blix"));
    const live = made.find(({ silent }) => silent);
    expect(made).toHaveLength(3);
    expect(answer?.content).not.toContain("pour blix");
    expect(plan?.content).toMatch(/<t:\d+:T> pour developer; pour out <t:\d+:T>/);
    expect(plan?.content.match(/pour out <t:/g)).toHaveLength(4);
    expect(live?.content).toContain("**North: saltmarsh demo**");

    // The first pour is due 30 s after the plan (the bench's lead); the sheet's figures are the
    // demo's own: developer 3:25, agitated 20 s, then 8 s each 40 s, poured out inside the time.
    const started = live?.at ?? 0;
    await pass(30);
    const pour = club.posts.at(-1);
    expect(pour?.content).toMatch(
      /^North: pour developer\. <@\d+>\ndeveloper: Acorn, the square\n/,
    );
    expect(pour?.at).toBe(started + 30_000);
    expect(pour?.pinged).toEqual(["Ines"]);
    await pass(6);
    ines.press(withButton(club.posts, "in"), "in");
    await standIn.settled();
    const inAt = started + 36_000;
    await pass(205);
    const cues = club.posts.filter(({ pinged, at }) => pinged.length > 0 && at > inAt);
    expect(
      cues.map(({ at, content }) => [(at - inAt) / 1000, content.split(/[.:] |\n| </)[1]]),
    ).toEqual([
      [20, "set it down"],
      [40, "agitate 8 seconds"],
      [80, "agitate 8 seconds"],
      [120, "agitate 8 seconds"],
      [160, "agitate 8 seconds"],
      [165, "fetch blix"],
      [195, "pour out now"],
      [205, "pour blix"],
    ]);
    const shown = () => club.posts.find(({ id }) => id === live?.id)?.content ?? "";
    await eventually(() => shown().includes("blix is being poured"));
    const status = club.posts.find(({ id }) => id === live?.id);
    expect(status?.edits.length).toBeGreaterThan(2);
    expect(status?.content).toContain("blix is being poured");
    for (const { pinged } of club.posts)
      expect(pinged.filter((name) => name !== "Ines")).toEqual([]);

    // Longer than an interaction lives: the run goes on in ordinary messages.
    await pass(20 * 60);
    expect(club.posts.at(-1)?.content).toContain("No clock is running");
    await eventually(() => shown().includes("over by the clock"));
    expect(shown()).toContain("over by the clock");

    await ask(scene, ines, "note the stabilizer foamed");
    const shared = await ask(scene, ines, "share");
    const group = club.club.channel("film-group");
    expect(group.messages).toEqual([]);
    expect(shared.content).toContain("Share this with the group?");
    expect(shared.content).toContain("Left out");
    const offer = withButton(club.posts, "yes, share");
    ines.press(offer, "yes, share");
    await standIn.settled();
    expect(group.messages).toHaveLength(1);
    expect(group.messages[0]?.content).toContain("North: saltmarsh demo");
    expect(group.messages[0]?.content).not.toContain("foamed");
    expect(group.messages[0]?.content).not.toContain("Left out");
    expect(group.messages[0]?.buttons).toEqual([]);
    // A second yes shares nothing twice.
    const second = ines.press(offer, "yes, share");
    await standIn.settled();
    expect(second.content).toContain("not open for you any more");
    expect(group.messages).toHaveLength(1);
    expect(standIn.violations).toEqual([]);
  }));

test("a picture goes to the group with its words, and with nobody's name or note in it", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    nameGroup(scene, ines);
    await ask(scene, ines, "start saltmarsh demo one roll of 120 tank north");
    await pass(1500);
    await ask(scene, ines, "note the stabilizer foamed");
    await ask(scene, ines, "share picture");
    await pass(1);
    const shown = club.posts.flatMap(({ attachments }) => attachments.map(({ name }) => name));
    expect(shown.filter((name) => name.endsWith("-shared.png"))).toHaveLength(1);
    expect(standIn.channel("film-group").messages).toEqual([]);
    ines.press(withButton(club.posts, "yes, share"), "yes, share");
    await standIn.settled();
    const [posted, ...more] = standIn.channel("film-group").messages;
    expect(more).toEqual([]);
    expect(posted?.attachments.map(({ name }) => name.endsWith("-shared.png"))).toEqual([true]);
    expect(posted?.content).toContain("North: saltmarsh demo");
    expect(posted?.content).not.toContain("foamed");
    expect(standIn.violations).toEqual([]);
  }));

test("no, another's yes, and a run that is not over share nothing", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    const { ines, rui } = club;
    nameGroup(scene, ines);
    await ask(scene, ines, "start blix for 1 minute tank north");
    await ask(scene, ines, "share");
    expect(club.posts.at(-1)?.content).not.toContain("Post just that");
    await pass(300);
    await ask(scene, ines, "share");
    const offer = withButton(club.posts, "yes, share");
    rui.press(offer, "yes, share");
    ines.press(offer, "no");
    await standIn.settled();
    ines.press(offer, "yes, share");
    await standIn.settled();
    expect(club.club.channel("film-group").messages).toEqual([]);
    expect(standIn.violations).toEqual([]);
  }));

test("a run is passed on as a block to repeat, and what a bench holds as a file for its members", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    nameGroup(scene, ines);
    await ask(scene, ines, "start saltmarsh demo one roll of 120 tank north");
    await pass(1500);
    await ask(scene, ines, "share repeatable");
    ines.press(withButton(club.posts, "yes, share"), "yes, share");
    await standIn.settled();
    const [posted] = standIn.channel("film-group").messages;
    const block = posted?.content.replace(/\\/g, "") ?? "";
    expect(block).toContain('{"schema":"wetside-repeatable"');

    for (const said of ["summary picture", "summary as json", "export"]) {
      await ask(scene, ines, said);
      await pass(1);
    }
    const files = club.posts.flatMap(({ attachments }) => attachments.map(({ name }) => name));
    expect(files.some((name) => name.endsWith(".png"))).toBe(true);
    expect(files.some((name) => name.endsWith(".json"))).toBe(true);
    expect(files.some((name) => name.endsWith(".zip"))).toBe(true);
    expect(standIn.violations).toEqual([]);
  }));

test("two tanks run side by side, each with its owner and its live message", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    const { ines, rui } = club;
    await ask(scene, ines, "set one person per tank");
    await ask(scene, ines, "start blix for 3 minutes tank north");
    await ask(scene, rui, "start fixer for 3 minutes tank south");
    await pass(240);
    const pinged = (tank: string) =>
      new Set(
        club.posts
          .filter(({ content }) => content.startsWith(`${tank}: `))
          .flatMap((one) => one.pinged),
      );
    expect([...pinged("North")]).toEqual(["Ines"]);
    expect([...pinged("South")]).toEqual(["Rui"]);
    const live = club.posts
      .filter(({ edits }) => edits.length > 0)
      .map(({ content }) => content.split("\n")[0]);
    expect(live).toHaveLength(2);
    expect(standIn.violations).toEqual([]);
  }));

test("in the dark nothing is posted, edited or rung; the light tells what came due", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    await ask(scene, ines, "remind me in 2 minutes to open the window");
    await ask(scene, ines, "start blix for 6 minutes tank north");
    await ask(scene, ines, "dark");
    const before = club.posts.length;
    const edits = () => club.posts.reduce((sum, { edits }) => sum + edits.length, 0);
    const edited = edits();
    await pass(600);
    expect(club.posts).toHaveLength(before);
    expect(edits()).toBe(edited);
    await ask(scene, ines, "light");
    await pass(1);
    expect(
      club.posts
        .slice(before)
        .map(({ content }) => content)
        .join("\n"),
    ).toContain("Late reminder: open the window");
    expect(standIn.violations).toEqual([]);
  }));

test("a run begun in the dark has its plan posted with the light, before its first pour", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    await ask(scene, club.ines, "dark");
    const before = club.posts.length;
    await ask(scene, club.ines, "start blix for 6 minutes tank north");
    await pass(5);
    const plans = () =>
      club.posts.slice(before).filter(({ content }) => content.includes("pour out <t:"));
    expect(plans()).toEqual([]);
    await ask(scene, club.ines, "light");
    await pass(1);
    expect(plans().filter(({ silent }) => !silent)).toHaveLength(1);
    await ask(scene, club.ines, "dark");
    await ask(scene, club.ines, "light");
    await pass(1);
    expect(plans().filter(({ silent }) => !silent)).toHaveLength(1);
    expect(standIn.violations).toEqual([]);
  }));

test("a sheet is taught by the form, page by page", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const { ines } = club;
    await ask(scene, ines, "learn a sheet");
    const paper: Readonly<Record<string, string>> = {
      name: "Garden",
      process: "c-41",
      measure: "millilitres",
      baths: "developer and wash",
      total: "1 litre",
      water: "700 ml",
      parts: "A 100 ml, B 100 ml",
      time: "3:25",
      capacity: "a good many",
    };
    let pages = 0;
    for (; pages < 12; pages += 1) {
      const last = club.posts.at(-1);
      if (last?.buttons.some(({ label }) => label === "form") !== true) break;
      const pressed = ines.press(last, "form");
      await standIn.settled();
      const { modal } = pressed;
      if (modal === undefined) throw new Error("no form");
      // What was typed and not taken is there again, to be mended.
      if (pages === 2) expect(JSON.stringify(modal)).toContain(paper.capacity);
      const ids = modal.components.flatMap((one) =>
        "component" in one && "custom_id" in one.component ? [one.component.custom_id] : [],
      );
      const values = ids.map((id) => [id, paper[id.split(/[ .:/]/).at(-1) ?? ""] ?? ""] as const);
      // What was not taken is asked for again; this time it is not on the paper.
      const mended = values.map(
        ([id, text]) => [id, pages > 2 && text === paper.capacity ? "" : text] as const,
      );
      ines.submits(modal, Object.fromEntries(mended));
      await standIn.settled();
      await scene.pass(5);
    }
    expect(pages).toBeGreaterThan(2);
    expect((await ask(scene, ines, "yes")).content).toContain("Sheet Garden is stored");
    const batch = await ask(scene, ines, "how much water for 500 ml of developer");
    expect(batch.content).toContain("350 mL");
    expect(standIn.violations).toEqual([]);
  }));

test("the live message is made again when somebody deletes it, and taken over before it is an hour old", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    await ask(scene, club.ines, "start developer for 100 minutes tank north");
    const live = () => club.posts.filter(({ silent }) => silent);
    const [first] = live();
    standIn.deleteMessage({ id: first?.id ?? "" });
    await pass(60);
    await eventually(() => live().length === 1);
    expect(live()).toHaveLength(1);
    expect(live()[0]?.id).not.toBe(first?.id);
    const second = live()[0];
    await pass(55 * 60);
    await eventually(() => live().length === 1 && live()[0]?.id !== second?.id);
    expect(live()).toHaveLength(1);
    expect(live()[0]?.id).not.toBe(second?.id);
    expect(live()[0]?.content).toContain("**North: developer**");
    expect(standIn.violations).toEqual([]);
  }));

test("a chart comes as a picture under its words", () =>
  withScene(async (scene) => {
    const { standIn, pass } = scene;
    const club = await openBenchAt(scene);
    await ask(scene, club.ines, "start blix for 3 minutes tank north");
    await pass(45);
    await ask(scene, club.ines, "temperature 37.6");
    club.ines.slash("say", { channel: BENCH, options: { sentence: "chart" } });
    const drawn = () => club.posts.find(({ attachments }) => attachments.length > 0);
    await eventually(() => drawn() !== undefined);
    const [picture] = drawn()?.attachments ?? [];
    expect(picture?.name).toMatch(/\.png$/);
    expect([...(picture?.bytes.subarray(1, 4) ?? [])]).toEqual([0x50, 0x4e, 0x47]);
    expect(standIn.violations).toEqual([]);
  }));
