import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { mayUse, permissionsOf, standings } from "../../src/commands/permissions.ts";
import { loadCommands } from "../../src/commands/registry.ts";
import { newRecord } from "../../src/conversation/record.ts";
import { type Message, turn } from "../../src/conversation/turn.ts";
import { instant } from "../../src/domain/units/quantity.ts";
import { permissionTable } from "../support/permission-table.ts";

const commands = await loadCommands();
const now = instant(Date.parse("2026-11-28T09:00:00Z"));
const fresh = newRecord("t", "Europe/Lisbon");
const refused = (message: Message, record = fresh): boolean =>
  turn(record, message, now, commands).reply.facts.reason === "not-yours";

test("SECURITY.md holds the table as the commands have it", async () => {
  const page = await readFile(join(import.meta.dirname, "../../SECURITY.md"), "utf8");
  const [, found = ""] = page.split(/<!-- permissions -->\n+/);
  expect(squeezed(found)).toBe(squeezed(permissionTable(commands)));
});

/** Examples that touch everyone at the bench, or somebody else. */
const ofOwners: ReadonlySet<string> = new Set([
  "set zone Europe/Lisbon",
  "forget everything about Dora",
  "forget the whole bench",
]);

/** Without the padding a formatter may add. */
const squeezed = (table: string): string => table.trim().replace(/-+/g, "-").replace(/ +/g, " ");

test.each(standings)("every command, by name, for %s: what the table says", (standing) => {
  for (const { name, who } of commands) {
    const message = { command: name, fields: {}, who: "Ines", standing };
    expect([name, refused(message)]).toEqual([name, !mayUse(standing, who)]);
  }
});

test.each(standings)("every example, as a sentence, for %s: what the table says", (standing) => {
  for (const { name, examples } of commands) {
    for (const text of examples) {
      const right = ofOwners.has(text) ? "owner" : undefined;
      const mine = commands.find((one) => one.name === name)?.who ?? "owner";
      const expected = !mayUse(standing, right ?? mine);
      expect([text, refused({ text, who: "Ines", standing })]).toEqual([text, expected]);
    }
  }
});

test("a guest changes nothing by any example", () => {
  for (const { examples } of commands) {
    for (const text of examples) {
      const after = turn(fresh, { text, who: "x", standing: "guest" }, now, commands);
      expect(after.record.bench).toBe(fresh.bench);
    }
  }
});

describe("a field only an owner gives", () => {
  const member = { who: "Rui", standing: "member" as const };
  const owner = { who: "Ines", standing: "owner" as const };

  test("is refused to a member in a sentence, by name and as an answer", () => {
    expect(refused({ text: "set zone Asia/Tokyo", ...member })).toBe(true);
    expect(refused({ command: "set", fields: { zone: "Asia/Tokyo" }, ...member })).toBe(true);
    const asked = turn(fresh, { command: "set", fields: {}, ...member }, now, commands);
    expect(asked.reply.kind).toBe("question");
    expect(refused({ text: "Asia/Tokyo", ...member }, asked.record)).toBe(true);
    expect(refused({ text: "set lead 1 minute", ...member })).toBe(false);
  });

  test("a channel that does not say who speaks, speaks for a member", () => {
    expect(refused({ text: "set zone Asia/Tokyo", who: "Ines" })).toBe(true);
  });

  test("is given by an owner, and only an owner takes it back", () => {
    const set = turn(fresh, { text: "set zone Asia/Tokyo", ...owner }, now, commands);
    expect(set.record.bench.zone).toBe("Asia/Tokyo");
    expect(refused({ text: "undo", ...member }, set.record)).toBe(true);
    const undone = turn(set.record, { text: "undo", ...owner }, now, commands);
    expect(undone.record.bench.zone).toBe("Europe/Lisbon");
  });
});

describe("a person who is named: oneself is a member's, another an owner's", () => {
  const member = { who: "Rui", standing: "member" as const };
  const guarded = commands.filter(({ selfFields }) => selfFields.length > 0);

  test("forgetting is such a word, and the table says it", () => {
    expect(guarded.map(({ name }) => name)).toEqual(["forget"]);
    expect(permissionsOf(commands)).toContainEqual({
      word: "forget another person",
      right: "owner",
    });
  });

  test.each(standings)("by name, for %s: what the table says", (standing) => {
    for (const { name, who, selfFields } of guarded) {
      for (const field of selfFields) {
        const named = (person: string) => ({ command: name, fields: { [field]: person } });
        for (const self of ["Rui", "rui", " RUI "]) {
          expect(refused({ ...named(self), who: "Rui", standing })).toBe(!mayUse(standing, who));
        }
        for (const other of ["Dora", "Rui Dora", "me", ""]) {
          const may = mayUse(standing, "owner");
          expect(refused({ ...named(other), who: "Rui", standing })).toBe(!may);
        }
      }
    }
  });

  test("in a sentence, and as the answer that would do it", () => {
    for (const text of ["forget everything about me", "forget Rui", "delete my data"]) {
      expect([text, refused({ text, ...member })]).toEqual([text, false]);
    }
    for (const text of ["forget everything about Dora", "forget Dora", "delete person Dora"]) {
      expect([text, refused({ text, ...member })]).toEqual([text, true]);
    }
    const typed = { person: "Dora", typed: "forget dora for good" };
    const done = turn(fresh, { command: "forget", fields: typed, ...member }, now, commands);
    expect(done.work).toBeUndefined();
    expect(done.reply.facts.reason).toBe("not-yours");
  });
});

test("a row of the table for each command, and one for each field only an owner gives", () => {
  const words = permissionsOf(commands).map(({ word }) => word);
  expect(new Set(words).size).toBe(words.length);
  expect(words).toEqual(expect.arrayContaining([...commands.map(({ name }) => name), "set zone"]));
});

test("first aid is anyone's, and nothing else is", () => {
  expect(commands.filter(({ who }) => who === "anyone").map(({ name }) => name)).toEqual([
    "emergency",
  ]);
});
