import { faultReply } from "../../console/fault.ts";
import type { Person } from "../people/membership.ts";
import { administer } from "../set-up/administer.ts";
import { mayManage } from "../set-up/permissions.ts";
import type { SlashOption } from "../words/read-interaction.ts";
import type { Desk } from "./desk.ts";
import type { Exchange, Slash } from "./exchange.ts";
import { wordOf } from "./word-of.ts";

/** The command with which benches are set up. */
export async function hearAdministrator(
  interaction: Slash,
  { person, alone }: Exchange,
  desk: Desk,
): Promise<void> {
  const { member, guild_id: guild, channel } = interaction;
  if (member === undefined || guild === undefined || channel === undefined) return;
  // Also checked here: what a server lets its members see of commands can be changed by it.
  if (!mayManage(BigInt(member.permissions))) {
    return alone("Only who may manage the server sets up a bench.");
  }
  const { word, options } = wordOf((interaction.data.options ?? []) as readonly SlashOption[]);
  try {
    const told = await administer(
      {
        word,
        options,
        guild,
        channel: channel.id,
        channelName: channel.name ?? "",
        administrator: person,
        mine: BigInt(interaction.app_permissions),
        person: namedIn(interaction, options.user),
      },
      desk,
    );
    await alone(told);
  } catch (error) {
    desk.onFault(error);
    await alone(faultReply(error).title);
  }
}

function namedIn({ data }: Slash, id: unknown): Person | undefined {
  const user = typeof id === "string" ? data.resolved?.users?.[id] : undefined;
  if (user === undefined || user.bot === true) return undefined;
  const member = data.resolved?.members?.[user.id];
  return {
    id: user.id,
    display: member?.nick ?? user.global_name ?? user.username,
    roles: member?.roles,
  };
}
