import { PermissionFlagsBits as Flag, PermissionsBitField } from "discord.js";
import fc from "fast-check";
import { expect, test } from "vitest";
import { maySee, missingNeeds, permissionsIn } from "./permissions.ts";

const GUILD = "100000000000000000";
const ME = "200000000000000000";
const ROLE = "300000000000000000";
const see = String(Flag.ViewChannel);

test.each([
  { title: "by the role", everyone: see, overwrites: [], sees: true },
  {
    title: "not where the channel hides itself",
    everyone: see,
    overwrites: [{ id: GUILD, allow: "0", deny: see }],
    sees: false,
  },
  {
    title: "not where only a role is let in",
    everyone: "0",
    overwrites: [{ id: ROLE, allow: see, deny: "0" }],
    sees: false,
  },
])("everyone sees a channel $title: $sees", ({ everyone, overwrites, sees }) => {
  expect(maySee(permissionsIn(GUILD, [{ id: GUILD, permissions: everyone }], overwrites))).toBe(
    sees,
  );
});

test("a hidden channel is seen by who is let in by name, and what is missing is named", () => {
  const roles = [{ id: GUILD, permissions: see }];
  const overwrites = [
    { id: GUILD, allow: "0", deny: see },
    { id: ME, allow: see, deny: "0" },
  ];
  const mine = permissionsIn(GUILD, roles, overwrites, { id: ME, roles: [] });
  expect(missingNeeds(mine).map(({ name }) => name)).toEqual(["Send Messages"]);
});

test("as the Discord library works it out", () => {
  const bits = fc.bigInt(0n, (1n << 20n) - 1n).filter((all) => (all & Flag.Administrator) === 0n);
  const overwrite = (id: string) => fc.record({ id: fc.constant(id), allow: bits, deny: bits });
  const case_ = fc.record({
    everyone: bits,
    role: bits,
    overwrites: fc.tuple(overwrite(GUILD), overwrite(ROLE), overwrite(ME)),
  });
  fc.assert(
    fc.property(case_, ({ everyone, role, overwrites }) => {
      const mine = permissionsIn(
        GUILD,
        [
          { id: GUILD, permissions: String(everyone) },
          { id: ROLE, permissions: String(role) },
        ],
        overwrites.map(({ id, allow, deny }) => ({ id, allow: String(allow), deny: String(deny) })),
        { id: ME, roles: [ROLE] },
      );
      // The steps of GuildChannel.memberPermissions in discord.js 14.
      const [forEveryone, forRole, forMe] = overwrites;
      const theirs = new PermissionsBitField([everyone, role])
        .remove(forEveryone.deny)
        .add(forEveryone.allow)
        .remove(forRole.deny)
        .add(forRole.allow)
        .remove(forMe.deny)
        .add(forMe.allow);
      expect(mine).toBe(theirs.bitfield);
    }),
  );
});
