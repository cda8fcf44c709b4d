import { expect, test } from "vitest";
import { type SlashField, slashFields } from "../../src/channels/discord/words/slash-fields.ts";
import { slashPlaces } from "../../src/channels/discord/words/slash-layout.ts";
import { rightNeeded } from "../../src/commands/permissions.ts";
import { loadCommands } from "../../src/commands/registry.ts";
import { ownWords } from "../support/permission-table.ts";
import type { InteractionHandle } from "./stand-in/people/interaction-handle.ts";
import type { Person } from "./stand-in/people/person.ts";
import { type Scene, withScene } from "./support/bot.ts";
import { ask, BENCH, openBenchAt } from "./support/club.ts";

const commands = await loadCommands();
const places = slashPlaces(commands);

/** Something to give where the user's own program insists on it. */
function given({ kind, choices, least }: SlashField): string | number | boolean {
  switch (kind) {
    case "boolean":
      return true;
    case "integer":
    case "number":
      return least ?? 1;
    case "choice":
      return choices?.[0]?.value ?? "";
    default:
      return "two";
  }
}

const MEMBERS_ONLY = "for its members only";
const OWNERS_ONLY = "Only the owner of the bench may do that";

/** Every slash command of the bench, said by one person, with what came of it. */
async function sayAll(
  { standIn, clock }: Scene,
  person: Person,
): Promise<ReadonlyMap<string, InteractionHandle>> {
  const answers = new Map<string, InteractionHandle>();
  for (const { name, sub, command } of places) {
    const needed = slashFields(command).filter(({ required }) => required);
    const options = Object.fromEntries(needed.map((field) => [field.option, given(field)]));
    const line = sub === undefined ? name : `${name} ${sub}`;
    // Nobody's budget is what is tested here.
    await clock.pass(500);
    answers.set(command.name, person.slash(line, { channel: BENCH, options }));
    await standIn.settled();
  }
  return answers;
}

test("every command, by who says it: a member's for members, first aid for anyone", () =>
  withScene(async (scene) => {
    const club = await openBenchAt(scene);
    const before = JSON.stringify((await club.bot.record()).bench);
    const refused = await sayAll(scene, club.tome);
    for (const { name, who } of commands) {
      const answer = refused.get(name);
      expect([name, answer?.content.includes(MEMBERS_ONLY)]).toEqual([name, who !== "anyone"]);
      expect([name, answer?.ephemeral]).toEqual([name, who !== "anyone"]);
    }
    expect(JSON.stringify((await club.bot.record()).bench)).toBe(before);
    const heard = await sayAll(scene, club.rui);
    for (const command of commands) {
      const content = heard.get(command.name)?.content ?? "";
      expect(content).not.toContain(MEMBERS_ONLY);
      const isOwners = rightNeeded(command, {}, "") === "owner";
      expect([command.name, content.includes(OWNERS_ONLY)]).toEqual([command.name, isOwners]);
    }
    for (const [name, { content }] of await sayAll(scene, club.ines)) {
      expect([name, content.includes(OWNERS_ONLY)]).toEqual([name, false]);
    }
    expect(scene.standIn.violations).toEqual([]);
  }));

test("the zone is set by who may manage the server, however they say it, and by no other member", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene, { messageContent: true });
    const { ines, rui, tome } = club;
    const zone = async (): Promise<string> => (await club.bot.record()).bench.zone;
    expect((await ask(scene, rui, "set zone Asia/Tokyo")).content).toContain(OWNERS_ONLY);
    rui.says(BENCH, "set zone Asia/Tokyo");
    rui.dm("set zone Asia/Tokyo");
    await standIn.settled();
    expect(club.posts.at(-1)?.content).toContain(OWNERS_ONLY);
    expect(rui.direct.messages.at(-1)?.content).toContain(OWNERS_ONLY);
    expect(await zone()).toBe("Europe/Lisbon");
    await ask(scene, ines, "set zone Asia/Tokyo");
    expect(await zone()).toBe("Asia/Tokyo");
    ines.dm("set zone Europe/Madrid");
    await standIn.settled();
    expect(await zone()).toBe("Europe/Madrid");
    ines.says(BENCH, "set zone Europe/Paris");
    await standIn.settled();
    expect(await zone()).toBe("Europe/Paris");
    // Who manages the server by a role; no member of the bench, though, is one by that alone.
    standIn.giveRole("Film club", "Rui", "managers");
    standIn.giveRole("Film club", "Tome", "managers");
    rui.says(BENCH, "set zone Europe/Rome");
    await standIn.settled();
    expect(await zone()).toBe("Europe/Rome");
    expect((await ask(scene, rui, "set zone Europe/Vienna")).content).toContain("Vienna");
    expect((await ask(scene, tome, "set zone Asia/Tokyo")).content).toContain(MEMBERS_ONLY);
    standIn.takeRole("Film club", "Rui", "managers");
    expect((await ask(scene, rui, "undo")).content).toContain(OWNERS_ONLY);
    expect(await zone()).toBe("Europe/Vienna");
    expect(standIn.violations).toEqual([]);
  }));

test("the administrator's words are offered to nobody else, and refused when they are sent all the same", () =>
  withScene(async (scene) => {
    const { standIn } = scene;
    const club = await openBenchAt(scene);
    const words = ownWords("wetside").map((word) => word.slice(1));
    expect(words).toContain("wetside member add");
    for (const word of words) {
      const options = /member/.test(word) ? { user: club.tome.id } : {};
      for (const person of [club.rui, club.tome]) {
        expect(() => person.slash(word, { channel: BENCH, options })).toThrow(/Not offered/);
      }
    }
    // As a server may set it up by itself: the command is offered to everyone.
    for (const command of club.app.commands()) {
      if (command.name === "wetside") command.default_member_permissions = null;
    }
    for (const word of words) {
      const options = /member/.test(word) ? { user: club.tome.id } : {};
      for (const person of [club.rui, club.tome]) {
        await scene.clock.pass(500);
        const said = person.slash(word, { channel: BENCH, options });
        await standIn.settled();
        expect([word, said.content]).toEqual([word, expect.stringContaining("may manage")]);
        expect(said.ephemeral).toBe(true);
      }
    }
    expect((await ask(scene, club.tome, "left")).content).toContain(MEMBERS_ONLY);
    expect(standIn.violations).toEqual([]);
  }));
