import { expect, test } from "vitest";
import { newPlace } from "../directory/record.ts";
import { isMember, withMember } from "./membership.ts";

const ID = (digit: number) => String(digit).repeat(18);
const place = newPlace({ guild: ID(1), channel: ID(2), channelName: "wet", openedBy: ID(3) });
const ines = { id: ID(4), display: "Ines", roles: [] };

test("who is listed is a member, whatever roles they have", () => {
  expect(isMember(place, ines)).toBe(false);
  expect(isMember(withMember(place, ines, true), ines)).toBe(true);
});

test("who has the role is a member for as long as they have it", () => {
  const byRole = { ...place, role: ID(9) };
  expect(isMember(byRole, { ...ines, roles: [ID(9)] })).toBe(true);
  const known = withMember(byRole, ines, false);
  expect(isMember(known, { ...ines, roles: [] })).toBe(false);
  expect(isMember(known, { ...ines, roles: undefined })).toBe(true);
  expect(isMember({ ...known, role: undefined }, { ...ines, roles: [ID(9)] })).toBe(false);
});

test("two of one display name have two names, and keep them", () => {
  const both = withMember(withMember(place, ines, true), { ...ines, id: ID(5) }, true);
  expect(Object.values(both.members).map(({ name }) => name)).toEqual(["Ines", "Ines 2"]);
  expect(withMember(both, { ...ines, display: "Other" }, true)).toBe(both);
});
