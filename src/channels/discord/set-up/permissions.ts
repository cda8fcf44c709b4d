import { PermissionFlagsBits as Flag } from "discord-api-types/v10";

export type Overwrite = {
  readonly id: string;
  readonly allow: string;
  readonly deny: string;
};
export type Role = { readonly id: string; readonly permissions: string };

const ALL = ~0n;

/**
 * What somebody may do in a channel, as a bit set: the roles together, then what the channel
 * changes for @everyone, for the roles, and for the member (Discord's documentation, topic
 * "Permissions"; from memory).
 *
 * @param guild   the guild's id, which is also the id of its @everyone role
 * @param member  ids of the member and of the member's roles; missing: somebody with no role
 */
export function permissionsIn(
  guild: string,
  roles: readonly Role[],
  overwrites: readonly Overwrite[],
  member: { readonly id: string; readonly roles: readonly string[] } = { id: "", roles: [] },
): bigint {
  const held = roles.filter(({ id }) => id === guild || member.roles.includes(id));
  const base = held.reduce((all, { permissions }) => all | BigInt(permissions), 0n);
  if ((base & Flag.Administrator) !== 0n) return ALL;
  const layers = [
    overwrites.filter(({ id }) => id === guild),
    overwrites.filter(({ id }) => id !== guild && member.roles.includes(id)),
    overwrites.filter(({ id }) => id === member.id),
  ];
  return layers.reduce((allowed, layer) => {
    const deny = layer.reduce((all, one) => all | BigInt(one.deny), 0n);
    const allow = layer.reduce((all, one) => all | BigInt(one.allow), 0n);
    return (allowed & ~deny) | allow;
  }, base);
}

type Need = { readonly bit: bigint; readonly name: string; readonly why: string };

/** Without these there is no bench in a channel. Names as Discord's own settings show them. */
const needed: readonly Need[] = [
  { bit: Flag.ViewChannel, name: "View Channel", why: "to be in the channel at all" },
  { bit: Flag.SendMessages, name: "Send Messages", why: "for plans, cues and reminders" },
];

/** Without these something is missing, and the rest works. */
const wished: readonly Need[] = [
  {
    bit: Flag.ReadMessageHistory,
    name: "Read Message History",
    why: "to answer under your message",
  },
  { bit: Flag.AttachFiles, name: "Attach Files", why: "for pictures of charts" },
];

/** Without these there is no call. */
const spoken: readonly Need[] = [
  { bit: Flag.ViewChannel, name: "View Channel", why: "to see who is in the call" },
  { bit: Flag.Connect, name: "Connect", why: "to come into the call" },
  { bit: Flag.Speak, name: "Speak", why: "to be heard" },
];

const missing = (permissions: bigint, needs: readonly Need[]): readonly Need[] =>
  needs.filter(({ bit }) => (permissions & bit) === 0n);

export const missingNeeds = (permissions: bigint): readonly Need[] => missing(permissions, needed);
export const missingWishes = (permissions: bigint): readonly Need[] => missing(permissions, wished);

export const missingToSpeak = (permissions: bigint): readonly Need[] =>
  missing(permissions, spoken);

/** May see the channel: the @everyone role, say. */
export const maySee = (permissions: bigint): boolean => (permissions & Flag.ViewChannel) !== 0n;

/** May manage the guild: who sets a bench up. */
export const mayManage = (permissions: bigint): boolean =>
  (permissions & (Flag.ManageGuild | Flag.Administrator)) !== 0n;

/** All that an invitation asks for. */
export const invited: bigint = [...needed, ...wished, ...spoken].reduce(
  (all, { bit }) => all | bit,
  0n,
);
