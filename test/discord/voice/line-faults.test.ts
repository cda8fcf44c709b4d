import { expect, test } from "vitest";
import { ask, type CallScene, type CallSpec, heardOf, VOICE, withCall } from "../support/call.ts";
import type { PersonInCall } from "../voice-stand-in/person-in-call.ts";
import { pitch, sine, toOpus } from "../voice-stand-in/sound.ts";
import type { VoiceServer } from "../voice-stand-in/voice-server.ts";

const A = 440;

type Talk = CallScene & { readonly ines: PersonInCall };

const inCall = (play: (talk: Talk) => Promise<void>, spec: CallSpec = {}): Promise<void> =>
  withCall(async (call) => {
    const { server, club, scene, comeIn } = call;
    const ines = server.enter(club.ines.id);
    expect(await comeIn()).toContain("I am in <#");
    await scene.standIn.until(() => server.group.transitions.length > 0, "the encrypted group");
    await play({ ...call, ines });
    expect(server.violations).toEqual([]);
    expect(scene.standIn.violations).toEqual([]);
  }, spec);

/** Ines is heard, and the bot is. */
async function talks(call: CallScene, server: VoiceServer, ines: PersonInCall): Promise<void> {
  const { standIn } = call.scene;
  await standIn.until(() => server.group.members.length >= 2, "the group");
  const heard = await heardOf(call, () => ines.speak(toOpus(sine(A, 0.4))));
  expect(Math.abs(pitch(heard.get("Ines") ?? new Int16Array(2), 16_000) - A)).toBeLessThan(12);
  const { length } = server.heard;
  call.recorder.call.mouth.cue({ opus: toOpus(sine(800, 0.1)) });
  await standIn.until(() => server.heard.length >= length + 5, "the cue");
}

/** What was posted in the bench's channel since. */
const since = ({ club }: CallScene, posts: number): string =>
  club.posts
    .slice(posts)
    .map(({ content }) => content)
    .join("\n");

test.each([undefined, 4015])(
  "a socket that is lost (%s) is resumed, and both are heard again",
  (code) =>
    inCall(async (talk) => {
      const { server, scene, club, ines } = talk;
      const posts = club.posts.length;
      server.drop(code);
      await scene.standIn.until(() => server.resumed === 1 && server.connected, "the resume");
      await talks(talk, server, ines);
      expect(server.identified).toBe(1);
      expect(club.posts).toHaveLength(posts);
    }),
);

test("a session that is over is begun anew", () =>
  inCall(async (talk) => {
    const { server, scene, ines } = talk;
    server.drop(4006);
    await scene.standIn.until(() => server.identified === 2 && server.mode !== undefined, "anew");
    await talks(talk, server, ines);
  }));

test("disconnected by a close code alone, while its voice state says it is there, it comes in again", () =>
  inCall(
    async (talk) => {
      const { server, scene, ines } = talk;
      server.drop(4014);
      await scene.standIn.until(() => server.identified === 2 && server.mode !== undefined, "anew");
      await talks(talk, server, ines);
      expect(scene.standIn.voice.botIn).toBe(VOICE);
    },
    { patience: 400 },
  ));

test("a voice server that moves is followed", () =>
  inCall(async (talk) => {
    const { scene, club, another } = talk;
    const second = await another();
    const ines = second.enter(club.ines.id);
    scene.standIn.voice.host(second);
    scene.standIn.voice.moveServer();
    await scene.standIn.until(() => second.group.transitions.length > 0, "the group there");
    await talks(talk, second, ines);
    expect(second.violations).toEqual([]);
    expect(scene.standIn.voice.botIn).toBe(VOICE);
  }));

test("dragged into another voice channel it stays there, with the members who are there", () =>
  inCall(async (talk) => {
    const { server, scene, club, ines } = talk;
    const { standIn } = scene;
    club.ines.voice("lounge");
    standIn.voice.drag(standIn.channel("lounge"));
    await standIn.until(
      () => server.identified === 2 && server.mode !== undefined,
      "the other one",
    );
    await talks(talk, server, ines);
    expect(standIn.voice.botIn).toBe("lounge");
    await scene.pass(90);
    expect(standIn.voice.botIn).toBe("lounge");
  }));

test("put out of the channel it stays out and says so; runs go on, and it comes in again when asked", () =>
  inCall(async (talk) => {
    const { server, scene, club, ines, recorder, comeIn } = talk;
    const { standIn } = scene;
    await ask(scene, club.ines, "start blix for 3 minutes tank north");
    const posts = club.posts.length;
    standIn.voice.putOut();
    await standIn.settled();
    expect(since(talk, posts)).toContain("Somebody disconnected me");
    expect(recorder.closed).toBe(1);
    await scene.pass(31);
    expect(since(talk, posts)).toContain("North: pour blix");
    expect(server.identified).toBe(1);
    expect(await comeIn()).toContain("I am in <#");
    await talks(talk, server, ines);
  }));

test.each([4017, 4006, 4004])(
  "a call that is ended again and again (%i) is given up, after few tries",
  (code) =>
    withCall(async (call) => {
      const { server, scene, comeIn } = call;
      server.faults.refuse = code;
      const answer = await comeIn();
      expect(answer).toContain("again and again");
      expect(answer).toContain(String(code));
      await scene.standIn.settled();
      expect(server.identified).toBeLessThanOrEqual(6);
      expect(scene.standIn.voice.botIn).toBeUndefined();
      const { identified } = server;
      await scene.pass(30);
      expect(server.identified).toBe(identified);
      expect(scene.standIn.violations).toEqual([]);
    }),
);

test.each([
  { title: "sends nobody to a voice server", fault: "unanswered" as const },
  { title: "has a voice server that says nothing", fault: "silent" as const },
])("when Discord $title, it says so and is free again", ({ fault }) =>
  withCall(
    async (call) => {
      const { server, scene, comeIn } = call;
      server.faults[fault] = true;
      expect(await comeIn()).toContain("does not answer");
      await scene.standIn.settled();
      expect(scene.standIn.voice.botIn).toBeUndefined();
      server.faults[fault] = false;
      expect(await comeIn()).toContain("I am in <#");
      expect(scene.standIn.violations).toEqual([]);
    },
    { patience: 250 },
  ),
);

test("a server that is gone for good in the middle of a call is given up in the end", () =>
  inCall(
    async (talk) => {
      const { server, scene, club } = talk;
      const posts = club.posts.length;
      server.faults.silent = true;
      server.drop();
      server.forget();
      await scene.standIn.until(() => since(talk, posts).includes("does not answer"), "the word");
      expect(scene.standIn.voice.botIn).toBeUndefined();
    },
    { patience: 250 },
  ));

test("a lost question for the own address is asked again", () =>
  inCall(
    async (talk) => {
      const { server, scene, ines } = talk;
      server.faults.lostDiscoveries = 1;
      server.drop(4006);
      await scene.standIn.until(
        () => server.identified >= 3 && server.mode !== undefined,
        "another try",
      );
      await talks(talk, server, ines);
    },
    { patience: 400 },
  ));

test("the main connection breaks and is resumed: the call goes on all the while", () =>
  inCall(async (talk) => {
    const { server, scene, ines } = talk;
    scene.standIn.socket.drop();
    await talks(talk, server, ines);
    await scene.standIn.until(() => scene.standIn.socket.count() === 1, "the main connection");
    await scene.standIn.settled();
    await talks(talk, server, ines);
    expect(server.identified).toBe(1);
  }));

test("packets that are none do no harm", () =>
  inCall(async (talk) => {
    const { server, ines, club } = talk;
    const header = Buffer.of(0x90, 0x78, 0, 1, 0, 0, 0, 1);
    for (const length of [0, 1, 8, 9, 10, 11, 12, 13, 30, 200]) {
      server.sendDatagram(Buffer.concat([header, Buffer.alloc(200)]).subarray(0, length));
    }
    await talks(talk, server, ines);
    expect(server.identified).toBe(1);
    expect(club.bot.notes.filter((note) => note !== "connected.")).toEqual([]);
  }));

test.each([
  { title: "JSON with nothing in it", message: '{"op":5,"d":null}' },
  { title: "a proposal that is none", message: Buffer.of(0, 99, 27, 0, 5, 1, 2, 3) },
  { title: "bytes that end too early", message: Buffer.of(0) },
])("a message that the library cannot take ($title) begins the line anew", ({ message }) =>
  inCall(async (talk) => {
    const { server, ines, scene } = talk;
    server.send(message);
    await scene.standIn.until(() => server.identified === 2 && server.mode !== undefined, "anew");
    await talks(talk, server, ines);
  }),
);

test("a server that sends nothing else is given up", () =>
  inCall(async (talk) => {
    const { server, scene, club } = talk;
    const posts = club.posts.length;
    await scene.standIn.until(() => {
      server.send('{"op":5,"d":null}');
      return since(talk, posts).includes("again and again");
    }, "the word of it");
    expect(scene.standIn.voice.botIn).toBeUndefined();
    expect(server.identified).toBeLessThanOrEqual(7);
    expect((await ask(scene, club.ines, "bottles")).content).not.toBe("");
  }));

test("the main connection begins anew, and with it the session of the call", () =>
  inCall(async (talk) => {
    const { server, scene, ines } = talk;
    const { standIn } = scene;
    const before = standIn.identifies.length;
    standIn.socket.invalidSession();
    await standIn.until(() => standIn.identifies.length > before, "another identify");
    await standIn.settled();
    server.drop(4006);
    await standIn.until(() => server.identified === 2 && server.mode !== undefined, "anew");
    await talks(talk, server, ines);
  }));

test("whatever befalls the voice, cues come in the channel at their instant", () =>
  inCall(async (talk) => {
    const { server, scene, club } = talk;
    await ask(scene, club.ines, "start blix for 3 minutes tank north");
    const planned = club.posts.at(-1)?.at ?? 0;
    server.faults.refuse = 4017;
    server.drop(4006);
    await scene.pass(30);
    const cue = club.posts.find(({ content }) => content.startsWith("North: pour blix"));
    expect((cue?.at ?? 0) - planned).toBe(30_000);
    await scene.standIn.until(() => scene.standIn.voice.botIn === undefined, "the end of the call");
    const answer = await ask(scene, club.ines, "in");
    expect(answer.content).toContain("blix in at");
  }));
