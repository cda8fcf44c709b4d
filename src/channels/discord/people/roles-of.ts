import { Routes } from "discord-api-types/v10";
import { z } from "zod";
import type { Api } from "../delivery/api.ts";
import { failureOf } from "../delivery/failure.ts";

/** Ids of the roles somebody has in a guild; "gone" when they left it; undefined when not known. */
export type RolesOf = (
  guild: string,
  user: string,
) => Promise<readonly string[] | "gone" | undefined>;

const answer = z.object({ roles: z.array(z.string()) });

/** What was asked is good for so long, ms. */
const GOOD_FOR = 300_000;
const MOST = 2000;

/** Asked where Discord does not send the roles along, as in a direct message. */
export function createRolesOf(api: Api, now: () => number): RolesOf {
  const known = new Map<
    string,
    { readonly roles: readonly string[] | "gone"; readonly at: number }
  >();
  /** Questions that are on their way: somebody who says much at once is asked about once. */
  const asking = new Map<string, ReturnType<RolesOf>>();

  const ask = async (key: string, guild: string, user: string): ReturnType<RolesOf> => {
    try {
      const { roles } = answer.parse(await api.call("get", Routes.guildMember(guild, user)));
      if (known.size >= MOST) known.clear();
      known.set(key, { roles, at: now() });
      return roles;
    } catch (error) {
      if (failureOf(error).kind !== "gone") return undefined;
      known.set(key, { roles: "gone", at: now() });
      return "gone";
    }
  };

  return (guild, user) => {
    const key = `${guild} ${user}`;
    const found = known.get(key);
    if (found !== undefined && now() - found.at < GOOD_FOR) return Promise.resolve(found.roles);
    const asked = asking.get(key) ?? ask(key, guild, user).finally(() => asking.delete(key));
    asking.set(key, asked);
    return asked;
  };
}
