import { expect, test } from "vitest";
import { withScene } from "../support/bot.ts";
import { ask, VOICE, withCall } from "../support/call.ts";
import { BENCH, openBenchAt } from "../support/club.ts";
import { sine, toOpus } from "../voice-stand-in/sound.ts";

test("without a voice on this machine it says where to get one, and asks Discord for nothing", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    club.ines.voice(VOICE);
    const answer = await ask(scene, club.ines, "join");
    expect(answer.content).toContain("npm run doctor");
    expect(standIn.voice.botIn).toBeUndefined();
    expect((await ask(scene, club.ines, "bottles")).content).not.toBe("");
    expect(standIn.violations).toEqual([]);
  }));

test("it comes to where who asks is; asked by nobody in a channel it asks them in", () =>
  withCall(async ({ scene, club, server }) => {
    const { standIn } = scene;
    expect((await ask(scene, club.rui, "join")).content).toContain("in no voice channel I can see");
    club.rui.voice("lounge");
    club.rui.says(BENCH, "<@1> come in");
    const asked = club.rui.slash("say", {
      channel: BENCH,
      options: { sentence: "Join us, please." },
    });
    expect((await asked.answer())?.content).toContain("I am in <#");
    expect((await asked.answer())?.content).toContain("Everyone in the server can come in");
    expect(standIn.voice.botIn).toBe("lounge");
    expect((await ask(scene, club.rui, "join")).content).toContain("already");
    expect((await ask(scene, club.rui, "leave the call")).content).toContain("I have left");
    await standIn.settled();
    expect(standIn.voice.botIn).toBeUndefined();
    expect((await ask(scene, club.rui, "leave")).content).toBe("I am in no call.");
    expect(server.violations).toEqual([]);
    expect(standIn.violations).toEqual([]);
  }));

test("sent away while it is still on its way in, it does not come", () =>
  withCall(
    async ({ scene, club, server }) => {
      const { standIn } = scene;
      server.faults.silent = true;
      club.ines.voice(VOICE);
      const sentence = { sentence: "join" };
      const joining = club.ines.slash("say", { channel: BENCH, options: sentence });
      await standIn.until(() => standIn.voice.botIn === VOICE, "the way in");
      expect((await ask(scene, club.ines, "leave")).content).toContain("I have left");
      expect((await joining.answer())?.content).toContain("I have left");
      expect(standIn.voice.botIn).toBeUndefined();
      server.faults.silent = false;
      expect((await ask(scene, club.ines, "join")).content).toContain("I am in <#");
    },
    { patience: 5000 },
  ));

test("where nothing can listen, that is said, and no call is begun", () =>
  withScene(async (scene) => {
    const attend = () => Promise.reject(new Error("The recogniser does not start"));
    const club = await openBenchAt(scene, { options: { attend } });
    club.ines.voice(VOICE);
    const asked = club.ines.slash("say", { channel: BENCH, options: { sentence: "join" } });
    expect((await asked.answer())?.content).not.toContain("I am in");
    expect(club.bot.notesAt("error")).toHaveLength(1);
    expect(club.bot.notesAt("debug").join()).toContain("does not start");
    expect(scene.standIn.voice.botIn).toBeUndefined();
  }));

test("who is no member is answered as ever, and nothing is joined", () =>
  withCall(async ({ scene, club }) => {
    club.tome.voice(VOICE);
    const answer = await ask(scene, club.tome, "join");
    expect(answer.content).toContain("for its members only");
    expect(scene.standIn.voice.botIn).toBeUndefined();
  }));

test("administrators name the bench's voice channel, or one to come into now", () =>
  withCall(async ({ scene, club }) => {
    const { standIn } = scene;
    const channel = (name: string) => ({ channel: standIn.channel(name).id });
    const administer = async (line: string, options?: Record<string, string>) => {
      const asked = club.ines.slash(`wetside ${line}`, {
        channel: BENCH,
        ...(options === undefined ? {} : { options }),
      });
      return (await asked.answer())?.content ?? "";
    };
    expect(await administer("voice", channel(VOICE))).toContain("This bench speaks in <#");
    expect(await administer("show")).toContain("This bench speaks in <#");
    club.rui.voice("lounge");
    expect((await ask(scene, club.rui, "join")).content).toContain("Go in there first");
    expect(await administer("join", channel("lounge"))).toContain("I am in <#");
    expect(standIn.voice.botIn).toBe("lounge");
    expect(await administer("join", channel(VOICE))).toContain("I am in <#");
    expect(standIn.voice.botIn).toBe(VOICE);
    expect(await administer("leave")).toContain("I have left");
    expect(await administer("join")).toContain("I am in <#");
    expect(standIn.voice.botIn).toBe(VOICE);
    expect(await administer("leave")).toContain("I have left");
    expect(await administer("voice")).toContain("no voice channel of its own now");
    await administer("join", channel(VOICE));
    expect(await administer("close")).toContain("The bench is closed");
    await standIn.settled();
    expect(standIn.voice.botIn).toBeUndefined();
    expect(standIn.violations).toEqual([]);
  }));

test("without the permissions it says which, and tries nothing", () =>
  withCall(async ({ scene, club }) => {
    const { standIn } = scene;
    club.ines.voice(VOICE);
    standIn.denyPermission(VOICE, ["Connect", "Speak"]);
    expect((await ask(scene, club.ines, "join")).content).toContain("Connect and Speak");
    standIn.denyPermission(VOICE, ["ViewChannel"]);
    expect((await ask(scene, club.ines, "join")).content).toMatch(/cannot see|View Channel/);
    expect(standIn.violations).toEqual([]);
  }));

test("one call in a server: a second bench is told where the first is", () =>
  withCall(async ({ scene, club, comeIn }) => {
    const { standIn } = scene;
    await comeIn();
    standIn.denyPermission("general", ["ViewChannel"], "@everyone");
    standIn.allowPermission("general", ["ViewChannel", "SendMessages"]);
    standIn.allowPermission("general", ["ViewChannel", "SendMessages"], "Ines");
    club.ines.slash("wetside open", { channel: "general" });
    await standIn.settled();
    const answer = await ask(scene, club.ines, "join", "general");
    expect(answer.content).toContain("one call of a server at a time");
    expect(standIn.voice.botIn).toBe(VOICE);
  }));

test("members by role are heard, and who is in the channel before the bot knows of them too", () =>
  withCall(async ({ scene, club, server, recorder }) => {
    const { standIn } = scene;
    standIn.giveRole(club.club, "Tome", "printers");
    club.ines.slash("wetside role", {
      channel: BENCH,
      options: { role: club.club.role("printers").id },
    });
    await standIn.settled();
    await club.bot.stop();
    club.tome.voice(VOICE);
    club.ines.voice(VOICE);
    await scene.start({ attend: recorder.attend, patience: 600 });
    const tome = server.enter(club.tome.id);
    expect((await ask(scene, club.ines, "join")).content).toContain("I am in <#");
    await standIn.until(() => server.group.transitions.length > 0, "the encrypted group");
    await tome.speak(toOpus(sine(440, 0.3)));
    await standIn.until(() => recorder.utterances.length > 0, "the end of what is said");
    expect(recorder.utterances[0]?.name).toBe("Tome");
    expect(standIn.violations).toEqual([]);
  }));

test("it leaves when nobody of the bench is there any more, not for a moment's absence", () =>
  withCall(async ({ scene, club, comeIn }) => {
    const { standIn } = scene;
    await comeIn();
    club.tome.voice(VOICE);
    club.ines.voice(undefined);
    await scene.pass(40);
    club.ines.voice(VOICE);
    await scene.pass(40);
    expect(standIn.voice.botIn).toBe(VOICE);
    club.ines.voice(undefined);
    await scene.pass(90);
    expect(standIn.voice.botIn).toBeUndefined();
    expect(club.posts.at(-1)?.content).toContain("Nobody of this bench is in");
  }));

test("it leaves after ten minutes without a run and a word, and stays while there is either", () =>
  withCall(async ({ scene, club, comeIn }) => {
    const { standIn } = scene;
    await comeIn();
    await scene.pass(300);
    await ask(scene, club.ines, "bottles");
    await scene.pass(420);
    expect(standIn.voice.botIn).toBe(VOICE);
    await ask(scene, club.ines, "start blix for 12 minutes tank north");
    await scene.pass(720);
    expect(standIn.voice.botIn).toBe(VOICE);
    await ask(scene, club.ines, "stop");
    await ask(scene, club.ines, "yes");
    await scene.pass(630);
    expect(standIn.voice.botIn).toBeUndefined();
    expect(club.posts.at(-1)?.content).toContain("nobody said a word for 10 minutes");
  }));

test.each([
  { title: "its text channel is deleted", befall: "deleteChannel" as const, what: BENCH },
  { title: "the bot is put out of the server", befall: "kickBot" as const, what: "Film club" },
])("it leaves when $title", ({ befall, what }) =>
  withCall(async ({ scene, club, comeIn, recorder }) => {
    const { standIn } = scene;
    await comeIn();
    standIn[befall](what);
    await scene.pass(20);
    expect(recorder.closed).toBe(1);
    if (befall === "deleteChannel") expect(standIn.voice.botIn).toBeUndefined();
    expect(club.bot.notes.filter((note) => note.includes("Error"))).toEqual([]);
    expect(standIn.violations).toEqual([]);
  }),
);

test("it leaves when the program stops, without a word", () =>
  withCall(async ({ scene, club, comeIn, recorder }) => {
    await comeIn();
    const posts = club.posts.length;
    await club.bot.stop();
    await scene.standIn.settled();
    expect(scene.standIn.voice.botIn).toBeUndefined();
    expect(recorder.closed).toBe(1);
    expect(club.posts).toHaveLength(posts);
  }));

test("a machine without a voice says so, and asks Discord for nothing of calls", () =>
  withScene(async (scene) => {
    const club = await openBenchAt(scene);
    club.ines.voice(VOICE);
    expect((await ask(scene, club.ines, "join")).content).toContain("no voice on this machine");
    expect(scene.standIn.voice.botIn).toBeUndefined();
    expect(scene.standIn.violations).toEqual([]);
  }));
