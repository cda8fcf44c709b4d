import { isMember, type Person, speakerOf } from "../people/membership.ts";
import type { Room, Speaker } from "../rooms/room.ts";
import type { Desk } from "./desk.ts";

export type Found =
  | { readonly kind: "one"; readonly room: Room; readonly speaker: Speaker }
  | { readonly kind: "several"; readonly rooms: readonly Room[] }
  | { readonly kind: "none" };

/** So many guilds are asked for somebody's roles, at most. */
const MOST_ASKED = 10;

/**
 * The bench somebody means who is in no channel: their only one, or the one they chose. Whoever
 * left the guild is a member no more, though still listed.
 */
export async function benchOf(person: Omit<Person, "roles">, desk: Desk): Promise<Found> {
  const { rooms, rolesOf, front } = desk;
  const isOpen = ({ place: { value } }: Room): boolean => value.closed === undefined;
  const among = async (candidates: readonly Room[]) => {
    const found: { room: Room; roles: readonly string[] | undefined }[] = [];
    for (const room of candidates) {
      const { value } = room.place;
      const roles = await rolesOf(value.guild, person.id);
      if (roles === "gone" || !isMember(value, { id: person.id, roles })) continue;
      found.push({ room, roles });
    }
    return found;
  };
  const known = rooms.ofMember(person.id).filter(isOpen);
  const listed = await among(known);
  const mine = listed.length > 0 ? listed : await among(byRole(rooms, person.id));
  const chosen = Object.hasOwn(front.value.people, person.id)
    ? front.value.people[person.id]?.bench
    : undefined;
  const one = mine.length === 1 ? mine[0] : mine.find(({ room }) => room.key === chosen);
  if (one !== undefined) {
    const { roles } = one;
    const manages = desk.manages(one.room.place.value.guild, person.id, roles);
    const speaker = speakerOf(one.room.place, { ...person, roles, manages }, desk.onFault);
    if (speaker !== undefined) return { kind: "one", room: one.room, speaker };
  }
  return mine.length === 0
    ? { kind: "none" }
    : { kind: "several", rooms: mine.map(({ room }) => room) };
}

/** Open benches that a role may lead to, for who is not named there; some of them, if there are many. */
function byRole(rooms: Desk["rooms"], person: string): readonly Room[] {
  const found: Room[] = [];
  for (const room of rooms.each()) {
    const { value } = room.place;
    if (value.closed !== undefined || value.role === undefined) continue;
    if (Object.hasOwn(value.members, person)) continue;
    found.push(room);
    if (found.length === MOST_ASKED) break;
  }
  return found;
}

/** Their direct messages are for this bench from here on; undefined: they are asked again. */
export const chooseBench = (desk: Desk, person: string, bench: string | undefined): Promise<void> =>
  desk.front.change((value) => ({
    ...value,
    people: { ...value.people, [person]: bench === undefined ? {} : { bench } },
  }));

/** Where this member wants their reminders. */
export const chooseReminders = (
  room: Room,
  { id }: Speaker,
  where: "channel" | "dm",
): Promise<void> =>
  room.place.change((value) => {
    const member = value.members[id];
    if (member === undefined) return value;
    return { ...value, members: { ...value.members, [id]: { ...member, reminders: where } } };
  });
