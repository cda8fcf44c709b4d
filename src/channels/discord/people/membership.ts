import type { Kept } from "../directory/kept.ts";
import type { Place } from "../directory/record.ts";
import type { Speaker } from "../rooms/room.ts";
import { nameMember } from "./name-member.ts";

/** Somebody as Discord sends them along with what they do. */
export type Person = {
  readonly id: string;
  readonly display: string;
  /** Their roles in the guild of the bench; undefined where nobody knows. */
  readonly roles: readonly string[] | undefined;
  /** May they manage the server? Asked where it is missing. */
  readonly manages?: boolean | undefined;
};

/** May this person use the bench: listed by an administrator, or of its role? */
export function isMember(
  { members, role }: Place,
  { id, roles }: Omit<Person, "display">,
): boolean {
  const member = Object.hasOwn(members, id) ? members[id] : undefined;
  if (member?.listed === true) return true;
  if (role === undefined) return false;
  // Where the roles cannot be asked for, who came by the role before is let in.
  return roles === undefined ? member !== undefined : roles.includes(role);
}

/** The place with this person known on it by a name of their own. */
export function withMember(place: Place, person: Person, listed: boolean): Place {
  const known = Object.hasOwn(place.members, person.id) ? place.members[person.id] : undefined;
  if (known !== undefined) {
    return known.listed === listed
      ? place
      : { ...place, members: { ...place.members, [person.id]: { ...known, listed } } };
  }
  const names = Object.values(place.members).map(({ name }) => name);
  const member = { name: nameMember(person.display, names), listed, reminders: "channel" as const };
  return { ...place, members: { ...place.members, [person.id]: member } };
}

/** The speaker a bench knows this person as; undefined when they are none of its members. */
export function speakerOf(
  place: Kept<Place>,
  person: Person,
  onFault: (error: unknown) => void,
): Speaker | undefined {
  if (!isMember(place.value, person)) return undefined;
  if (!Object.hasOwn(place.value.members, person.id)) {
    place.change((value) => withMember(value, person, false)).catch(onFault);
  }
  const name = place.value.members[person.id]?.name;
  if (name === undefined) return undefined;
  return { id: person.id, name, standing: person.manages === true ? "owner" : "member" };
}
