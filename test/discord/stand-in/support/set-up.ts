import { onTestFinished } from "vitest";
import { createFakeClock, type FakeClock } from "../../../support/fake-clock.ts";
import type { AppHandle, ApplicationSpec } from "../people/application.ts";
import type { GuildHandle } from "../people/guild-handle.ts";
import type { GuildSpec } from "../people/guild-spec.ts";
import type { Person } from "../people/person.ts";
import { type StandIn, type StandInSpec, startStandIn } from "../start.ts";
import { type RawCall, rawCalls } from "./raw.ts";

export const TOKEN = "an-invented-token";

export type Setting = {
  readonly clock: FakeClock;
  readonly discord: StandIn;
  readonly app: AppHandle;
  readonly guild: GuildHandle;
  readonly ana: Person;
  readonly call: RawCall;
  /** The path of the channel called "bench". */
  readonly bench: string;
};

/** A stand-in with one bot, one guild, Ana and Bo, closed when the test ends. */
export async function setUp(
  guild: Partial<GuildSpec> = {},
  spec: StandInSpec & { readonly app?: Partial<ApplicationSpec> } = {},
): Promise<Setting> {
  const clock = createFakeClock();
  // Rate limits so short that no test meets them unless it wants to.
  const discord = await startStandIn({ clock, pace: 0.0001, ...spec });
  onTestFinished(() => discord.close());
  const app = discord.application({ token: TOKEN, ...spec.app });
  const founded = discord.guild({
    name: "Club",
    channels: ["bench"],
    members: ["Ana", "Bo"],
    ...guild,
  });
  return {
    clock,
    discord,
    app,
    guild: founded,
    ana: founded.member("Ana"),
    call: rawCalls(discord, TOKEN),
    bench: `/channels/${founded.channel("bench").id}`,
  };
}

/** The error codes in a nested `errors` object, with where they stand. */
export function formCodes(errors: unknown, path = ""): string[] {
  if (typeof errors !== "object" || errors === null) return [];
  return Object.entries(errors).flatMap(([key, value]) =>
    key === "_errors" && Array.isArray(value)
      ? value.map(({ code }) => `${path}: ${code}`)
      : formCodes(value, path === "" ? key : `${path}.${key}`),
  );
}
