import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ask, type CallScene, type CallSpec, heardOf, withCall } from "../support/call.ts";
import type { PersonInCall } from "../voice-stand-in/person-in-call.ts";
import { AES, XCHACHA } from "../voice-stand-in/rtp.ts";
import { pitch, sine, toOpus } from "../voice-stand-in/sound.ts";

/** A few bins of the Fourier transform at 16 kHz. */
const NEAR = 12;
const A = 440;
const E = 660;

type Talk = CallScene & { readonly ines: PersonInCall };

/** Ines and the bot are in a call that is encrypted as the service demands. */
const inCall = (play: (talk: Talk) => Promise<void>, spec: CallSpec = {}): Promise<void> =>
  withCall(async (call) => {
    const { server, club, scene, comeIn } = call;
    const ines = server.enter(club.ines.id);
    expect(await comeIn()).toContain("I am in <#");
    if (spec.version !== 0)
      await scene.standIn.until(() => server.group.transitions.length > 0, "the encrypted group");
    await play({ ...call, ines });
    expect(server.violations).toEqual([]);
    expect(scene.standIn.violations).toEqual([]);
  }, spec);

const isNear = (pcm: Int16Array | undefined, hz: number): boolean =>
  Math.abs(pitch(pcm ?? new Int16Array(2), 16_000) - hz) < NEAR;

test.each([
  { title: "AES-GCM, which the server prefers", spec: {}, mode: AES },
  { title: "XChaCha20 where there is nothing else", spec: { aes: false }, mode: XCHACHA },
  {
    title: "no end-to-end encryption, from before it was demanded",
    spec: { version: 0 as const },
    mode: AES,
  },
])("hears with $title", ({ spec, mode }) =>
  inCall(async (talk) => {
    expect(talk.server.mode).toBe(mode);
    const heard = await heardOf(talk, () => talk.ines.speak(toOpus(sine(A, 0.4))));
    expect([...heard.keys()]).toEqual(["Ines"]);
    expect(isNear(heard.get("Ines"), A)).toBe(true);
  }, spec),
);

test("who comes later is let into the group by the bot; both know the same code", () =>
  withCall(
    async (call) => {
      const { server, club, scene, comeIn } = call;
      await comeIn();
      const ines = server.enter(club.ines.id);
      await scene.standIn.until(() => server.group.transitions.length > 0, "the encrypted group");
      const rui = server.enter(club.rui.id);
      club.rui.voice("wet-voice");
      await scene.standIn.until(() => server.group.transitions.length > 1, "the second member");
      expect(server.group.members).toHaveLength(3);
      expect(server.group.privacyCode).toMatch(/^\d{30}$/);
      const first = await heardOf(call, () => ines.speak(toOpus(sine(A, 0.3))));
      const second = await heardOf(call, () => rui.speak(toOpus(sine(E, 0.3))));
      expect([...first.keys(), ...second.keys()]).toEqual(["Ines", "Rui"]);
      rui.leave();
      await scene.standIn.until(() => server.group.members.length === 2, "the one who left");
      const third = await heardOf(call, () => ines.speak(toOpus(sine(E, 0.3))));
      expect(isNear(third.get("Ines"), E)).toBe(true);
      expect(server.violations).toEqual([]);
    },
    { committer: "bot" },
  ));

test("two members at once are heard apart; who is no member is not heard at all", () =>
  inCall(async (talk) => {
    const { server, club, scene, ines } = talk;
    club.rui.voice("wet-voice");
    club.tome.voice("wet-voice");
    const rui = server.enter(club.rui.id);
    const tome = server.enter(club.tome.id);
    await scene.standIn.until(() => server.group.members.length === 4, "all in the group");
    const heard = await heardOf(talk, () =>
      Promise.all([
        ines.speak(toOpus(sine(A, 0.5))),
        rui.speak(toOpus(sine(E, 0.5))),
        tome.speak(toOpus(sine(900, 0.5))),
      ]),
    );
    expect([...heard.keys()].toSorted()).toEqual(["Ines", "Rui"]);
    expect(isNear(heard.get("Ines"), A)).toBe(true);
    expect(isNear(heard.get("Rui"), E)).toBe(true);

    // Let in, he is heard; taken off the list again, from that moment on he is not.
    club.ines.slash("wetside member add", {
      channel: "wet-bench",
      options: { user: club.tome.id },
    });
    await scene.standIn.settled();
    const his = await heardOf(talk, () => tome.speak(toOpus(sine(900, 0.3))));
    expect([...his.keys()]).toEqual(["Tome"]);
    club.ines.slash("wetside member remove", {
      channel: "wet-bench",
      options: { user: club.tome.id },
    });
    await scene.standIn.settled();
    await tome.speak(toOpus(sine(900, 0.3)));
    const after = await heardOf(talk, () => ines.speak(toOpus(sine(A, 0.3))));
    expect([...after.keys()]).toEqual(["Ines"]);
  }));

test("packets that get lost leave gaps and nothing else", () =>
  inCall(async (talk) => {
    const heard = await heardOf(talk, () =>
      talk.ines.speak(toOpus(sine(A, 0.8)), { lose: (frame) => frame % 5 === 2 }),
    );
    expect(heard.get("Ines")?.length).toBeGreaterThan(0.6 * 16_000);
    expect(isNear(heard.get("Ines"), A)).toBe(true);
  }));

test("no speech is longer than fifteen seconds, and no piece longer than a frame: nothing piles up", () =>
  inCall(async (talk) => {
    const { ines, recorder } = talk;
    const second = toOpus(sine(A, 1));
    const long = Array.from({ length: 20 }, () => second).flat();
    const heard = await heardOf(talk, () => ines.speak(long, { paceMs: 0 }));
    expect(heard.get("Ines")?.length).toBeGreaterThan(15 * 16_000);
    const longest = Math.max(...recorder.utterances.map(({ pcm }) => pcm.length));
    expect(longest).toBeLessThanOrEqual(15 * 16_000);
    expect(recorder.largest).toBe(320);
  }));

test("silence is not speech; bytes that are no Opus do no harm", () =>
  inCall(async (talk) => {
    const { scene, recorder } = talk;
    const quiet = Array.from({ length: 20 }, () => Buffer.of(0xf8, 0xff, 0xfe));
    await talk.ines.speak(quiet);
    const first = await heardOf(talk, () => talk.ines.speak(toOpus(sine(E, 0.3))));
    expect(isNear(first.get("Ines"), E)).toBe(true);
    // Five frames of silence behind it are part of it: that is how a program says that it was all.
    expect((first.get("Ines")?.length ?? 0) / 320).toBe(15 + 5);
    // Code 3 with a frame count of 0 is no packet (RFC 6716, section 3.2.5); neither is an empty one.
    const junk = Array.from({ length: 10 }, () => Buffer.of(0xff, 0x00, 0x00));
    await talk.ines.speak([...junk, Buffer.alloc(1200, 0xff)], { abrupt: true });
    await scene.standIn.until(() => recorder.pending === 0, "the end of it");
    const clear = await heardOf(talk, () => talk.ines.speak(toOpus(sine(A, 0.4))));
    expect(isNear(clear.get("Ines"), A)).toBe(true);
  }));

test.each(["wrongKey", "wrongEndToEnd"] as const)(
  "what cannot be decrypted (%s) is let by, and hearing goes on behind it",
  (fault) =>
    inCall(async (talk) => {
      const { server, ines } = talk;
      server.faults[fault] = true;
      await ines.speak(toOpus(sine(E, 0.4)), { abrupt: true });
      server.faults[fault] = false;
      const heard = await heardOf(talk, () => ines.speak(toOpus(sine(A, 0.4))));
      expect(isNear(heard.get("Ines"), A)).toBe(true);
    }),
);

test("keys of the group that went wrong are made anew by themselves", () =>
  inCall(async (talk) => {
    const { server, ines, scene } = talk;
    server.faults.wrongEndToEnd = true;
    await ines.speak(toOpus(sine(E, 1)), { abrupt: true });
    await scene.standIn.until(() => server.group.flags === 1, "the word of it");
    await scene.standIn.until(() => server.group.transitions.length > 1, "the new keys");
    server.faults.wrongEndToEnd = false;
    const heard = await heardOf(talk, () => ines.speak(toOpus(sine(A, 0.4))));
    expect(isNear(heard.get("Ines"), A)).toBe(true);
    expect(server.identified).toBe(1);
  }));

test("where nothing can be decrypted for long the line is begun anew; where that does not help it is said", () =>
  inCall(async (talk) => {
    const { server, ines, club, scene } = talk;
    server.faults.wrongKey = true;
    const lost = toOpus(sine(E, 2.4));
    await ines.speak(lost, { abrupt: true });
    await scene.standIn.until(() => server.identified === 2 && server.mode !== undefined, "anew");
    await scene.standIn.until(() => server.group.members.length === 2, "the group");
    await ines.speak(lost, { abrupt: true });
    await scene.standIn.until(
      () => club.posts.some(({ content }) => content.includes("cannot be decrypted")),
      "the word of it",
    );
    server.faults.wrongKey = false;
    const heard = await heardOf(talk, () => ines.speak(toOpus(sine(A, 0.4))));
    expect(isNear(heard.get("Ines"), A)).toBe(true);
  }));

test("nothing of what is said is written anywhere", () =>
  inCall(async (talk) => {
    const frames = toOpus(sine(A, 1));
    const heard = await heardOf(talk, () => talk.ines.speak(frames));
    const pcm = heard.get("Ines") ?? new Int16Array();
    const part = Buffer.from(pcm.slice(4000, 4032).buffer);
    expect(part.some((byte) => byte !== 0)).toBe(true);
    const traces = [part, frames[20] ?? part];
    const files = await readdir(talk.scene.data, { recursive: true, withFileTypes: true });
    expect(files.length).toBeGreaterThan(2);
    for (const file of files.filter((one) => one.isFile())) {
      const bytes = await readFile(join(file.parentPath, file.name));
      for (const trace of traces) expect(bytes.includes(trace)).toBe(false);
    }
  }));

test("words that were heard are taken like typed ones, with what was heard beside the answer", () =>
  inCall(async ({ scene, club, recorder }) => {
    const { standIn } = scene;
    await ask(scene, club.ines, "start blix for 3 minutes tank north");
    const speaker = { id: club.ines.id, name: "Ines", standing: "member" } as const;
    const reply = await recorder.call.ask(speaker, { text: "how long is left" });
    await standIn.settled();
    expect(reply.title).toContain("North");
    const [question, answer] = club.posts.slice(-2);
    expect(question?.content).toBe("Ines, as I heard it: how long is left");
    expect(question?.silent).toBe(true);
    expect(answer?.content).toContain(reply.title);
    await scene.pass(30);
    expect(recorder.told.map(({ facts }) => facts.cue)).toContain("pour");
  }));

test("an ear that breaks is told of, and touches nothing else", () =>
  withCall(async ({ scene, server, club, comeIn, recorder }) => {
    const ines = server.enter(club.ines.id);
    await comeIn();
    await scene.standIn.until(() => server.group.transitions.length > 0, "the encrypted group");
    const { attend } = recorder;
    expect(attend).toBeDefined();
    Object.defineProperty(recorder.utterances, "push", {
      value: () => {
        throw new Error("The recogniser fell over");
      },
    });
    await ines.speak(toOpus(sine(A, 0.2)));
    await scene.standIn.until(
      () => club.bot.notesAt("debug").some((note) => note.includes("fell over")),
      "the note",
    );
    expect(club.bot.notesAt("error").join()).not.toContain("fell over");
    const answer = await ask(scene, club.ines, "bottles");
    expect(answer.content).not.toBe("");
    expect(scene.standIn.violations).toEqual([]);
  }));
