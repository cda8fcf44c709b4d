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
