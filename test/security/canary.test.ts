import { mkdir, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { faultReply } from "../../src/channels/console/fault.ts";
import { hide } from "../../src/log/hide.ts";
import { faultWords } from "../../src/platform/fault.ts";
import {
  TOKEN as BOT_TOKEN,
  type BotOptions,
  type Scene,
  withScene,
} from "../discord/support/bot.ts";
import { ask, openBenchAt } from "../discord/support/club.ts";
import { withFolder } from "../support/child.ts";
import { withDiscordService } from "../support/discord-service.ts";
import { eveningScript } from "../support/evening-script.ts";
import { runProgram } from "../support/program.ts";

type Club = Awaited<ReturnType<typeof openBenchAt>>;

/** Words that occur nowhere else: wherever one turns up, something leaked. */
const TOKEN = "canary-of-the.token_itself";
const FOLDER = "canary-of-the-folder";
const NOTE = "canaryofthenote";

const texts = async (folder: string): Promise<string> => {
  const all = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  const files = all.filter((one) => one.isFile());
  const read = files.map((one) => readFile(join(one.parentPath, one.name), "latin1"));
  return (await Promise.all(read)).join("\n");
};

const withCanaryFolder = (use: (data: string) => Promise<void>): Promise<void> =>
  withFolder((folder) => use(join(folder, FOLDER)));

const simulated = (data: string): readonly string[] => [
  ...["--data", data, "--simulate", "2026-11-28T19:30:00Z", "--zone", "Europe/Lisbon"],
];

test("no fault, of whatever kind and whatever it holds, says more than its kind and place", () => {
  const text = fc.string({ unit: "binary", maxLength: 12 });
  const around = fc
    .tuple(text, text)
    .map(([a, b]) => `${a}${NOTE} /${FOLDER}/x (/src/a.ts:1:2)${b}`);
  const frame = fc.constantFrom("\n    at ", "\n    at f (", " ", "\n");
  const made = fc
    .record({
      message: around,
      name: fc.option(around),
      code: fc.option(around),
      cause: around,
      frame,
    })
    .map((one) => {
      const error = new TypeError(one.message, { cause: one.cause });
      if (one.name !== null) error.name = one.name;
      if (one.code !== null) Object.assign(error, { code: one.code });
      error.stack = `${error.name}: ${one.message}${one.frame}${process.cwd()}/src/${NOTE} x.ts:1:2)`;
      return error;
    });
  const thrown = fc.oneof(made, around, fc.record({ message: around, stack: around }));
  const law = fc.property(thrown, (error) => {
    for (const told of [faultWords(error), JSON.stringify(faultReply(error))]) {
      expect(told).not.toContain(NOTE);
      expect(told).not.toContain(FOLDER);
    }
  });
  fc.assert(law, { numRuns: 500 });
});

test("a token and a folder are hidden wherever they stand, also one in the other", () => {
  const hidden = [
    { text: TOKEN, as: "[token]" },
    { text: `/srv/${FOLDER}`, as: "the data folder" },
  ];
  const piece = fc.oneof(fc.string(), fc.constantFrom(TOKEN, `/srv/${FOLDER}`, `/srv/${FOLDER}/x`));
  const law = fc.property(fc.array(piece, { maxLength: 8 }), (pieces) => {
    const told = hide(pieces.join(""), hidden);
    expect(told).not.toContain(TOKEN);
    expect(told).not.toContain(FOLDER);
  });
  fc.assert(law);
});

test("an evening through every command never tells where it is kept", () =>
  withCanaryFolder(async (data) => {
    const lines = eveningScript.map((line) => line.replace(/^@ *(\d+)$/, "@+$1s"));
    let told = "";
    // In pieces, each a process of its own, so that none takes long on a busy machine.
    for (let from = 0; from < lines.length; from += 60) {
      const ended = await runProgram(simulated(data), lines.slice(from, from + 60));
      expect(ended.code).toBe(0);
      told += ended.output + ended.complaint;
    }
    expect(told.length).toBeGreaterThan(20_000);
    expect(told).not.toContain(FOLDER);
  }));

test.each([
  {
    what: "damaged files",
    spoil: async (data: string) => {
      const bench = join(data, "benches/home");
      for (const name of await readdir(bench)) await writeFile(join(bench, name), NOTE);
    },
  },
  {
    what: "a folder where a file must be",
    spoil: async (data: string) => {
      const bench = join(data, "benches/home");
      for (const name of await readdir(bench)) {
        await rm(join(bench, name));
        await mkdir(join(bench, name));
      }
    },
  },
  {
    what: "a file where a folder must be",
    spoil: async (data: string) => {
      await rm(join(data, "benches"), { recursive: true });
      await writeFile(join(data, "benches"), NOTE);
    },
  },
  {
    what: "a picture folder that is none",
    spoil: async (data: string) => {
      await writeFile(join(data, "pictures"), NOTE);
    },
  },
  {
    what: "a lock that is none",
    spoil: async (data: string) => {
      await writeFile(join(data, "lock"), NOTE);
    },
  },
])("$what: told without a path and without what it held", ({ spoil }) =>
  withCanaryFolder(async (data) => {
    await runProgram(simulated(data), [
      "start blix for 6 minutes at 38 C tank north",
      "temperature 37",
    ]);
    await spoil(data);
    const ended = await runProgram(simulated(data), ["chart", "bottles"]);
    const doctor = await runProgram([], [], "doctor", {
      WETSIDE_DATA: data,
      DISCORD_TOKEN: TOKEN,
      DISCORD_API: "http://127.0.0.1:9",
    });
    const backup = await runProgram([`${data}-copy`], [], "backup", { WETSIDE_DATA: data });
    for (const { output, complaint } of [ended, doctor, backup]) {
      const told = output + complaint;
      expect(told).not.toBe("");
      expect(told).not.toContain(FOLDER);
      expect(told).not.toContain(NOTE);
      expect(told).not.toContain(TOKEN);
      expect(told).not.toMatch(/^ {4}at /m);
    }
  }),
);

test("as a service, its disk gone and Discord failing: log and messages hold no token, path or note", () =>
  withCanaryFolder((data) =>
    withDiscordService(
      data,
      async ({ standIn, program, say, posts }) => {
        expect(await say(`note ${NOTE} one`)).toContain(NOTE);
        standIn.faults.next({ status: 500, times: 2 });
        standIn.faults.next({ status: 400, times: 2 });
        await say("start blix for 6 minutes tank north");
        await rm(data, { recursive: true, force: true });
        // Beyond what is still open: a new generation, an archive, a picture.
        for (const sentence of [`note ${NOTE} two`, "temperature 37", "chart"]) {
          expect(await say(sentence)).not.toContain(FOLDER);
        }
        const ended = await program.terminate();
        const told = ended.complaint + ended.output;
        expect(told).toContain("Asked to leave.");
        expect(told).not.toContain(TOKEN);
        expect(told).not.toContain(FOLDER);
        expect(told).not.toContain(NOTE);
        for (const line of ended.complaint.trim().split("\n")) JSON.parse(line);
        const said = JSON.stringify(posts());
        expect(said).not.toContain(TOKEN);
        expect(said).not.toContain(FOLDER);
        expect(await texts(data)).not.toContain(TOKEN);
        standIn.takeViolations();
      },
      TOKEN,
    ),
  ));

/** A bot whose disk fails in a way nobody thought of, once it is told to. */
async function withFailingDisk(
  play: (scene: Scene, club: Club, fail: () => void) => Promise<void>,
) {
  await withScene(async (scene) => {
    let failing = false;
    const slow: BotOptions["slow"] = async () => {
      if (!failing) return;
      const path = join(scene.data, "benches");
      throw Object.assign(new Error(`ENOENT: open '${path}' while keeping ${NOTE}`), { code: "X" });
    };
    const start = scene.start.bind(scene);
    const club = await openBenchAt({ ...scene, start: () => start({ slow }) });
    await play(scene, club, () => {
      failing = true;
    });
  });
}

test("a fault nobody thought of: one person hears that something went wrong, and no more than that", () =>
  withFailingDisk(async (scene, club, fail) => {
    const { standIn, data } = scene;
    await ask(scene, club.ines, "start blix for 6 minutes tank north");
    fail();
    const said = await ask(scene, club.ines, `note ${NOTE} again`);
    expect(said.content).toContain("Something went wrong in me");
    club.rui.dm("note x");
    await scene.pass(60);
    const all = [
      ...club.bot.notes,
      said.content,
      ...club.posts.map(({ content }) => content),
      ...club.rui.direct.messages.map(({ content }) => content),
    ].join("\n");
    expect(all).not.toContain(data);
    expect(all).not.toContain(BOT_TOKEN);
    // At `debug` alone the message of the fault is told to whoever runs the program.
    expect(club.bot.notesAt("debug").join("\n")).toContain(NOTE);
    expect(club.bot.notes.join("\n")).not.toContain(NOTE);
    standIn.takeViolations();
  }));

test("a private note reaches nobody who is no member, whatever they ask", () =>
  withScene(async (scene) => {
    const club = await openBenchAt(scene);
    await ask(scene, club.ines, `note ${NOTE}`);
    await ask(scene, club.ines, `remind me in 10 minutes to ${NOTE}`);
    for (const sentence of [
      "summary",
      "again",
      "why",
      "reminders",
      "undo",
      "share",
      "recall Acorn",
    ]) {
      const said = await ask(scene, club.tome, sentence);
      expect(said.content).not.toContain(NOTE);
      club.tome.dm(sentence);
      await scene.pass(1);
    }
    club.tome.says("general", `${club.app.mention} summary`);
    await scene.pass(660);
    const seen = [
      ...club.tome.direct.messages,
      ...club.club.channel("general").messages,
      ...club.club.channel("film-group").messages,
    ];
    expect(JSON.stringify(seen)).not.toContain(NOTE);
    expect(JSON.stringify(club.posts.map(({ content }) => content))).toContain(NOTE);
    expect(club.bot.notes.join("\n")).not.toContain(NOTE);
    expect(scene.standIn.violations).toEqual([]);
  }));
