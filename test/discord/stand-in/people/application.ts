import type { APIApplicationCommand } from "discord-api-types/v10";
import type { Application, World } from "../world.ts";
import { makeUser } from "./found-guild.ts";

export type ApplicationSpec = {
  readonly token: string;
  readonly name?: string;
  /** The privileged intents switched on; none when left out. */
  readonly intents?: {
    readonly messageContent?: boolean;
    readonly guildMembers?: boolean;
    readonly guildPresences?: boolean;
  };
  readonly maxConcurrency?: number;
  readonly recommendedShards?: number;
};

export type AppHandle = {
  readonly id: string;
  readonly token: string;
  readonly botId: string;
  /** How to write the bot into a message. */
  readonly mention: string;
  /** What is registered, everywhere or in one guild. */
  commands(guildId?: string): readonly APIApplicationCommand[];
  /** How often commands were registered, and where. */
  readonly registrations: Application["registrations"];
  /** Gives it a new token; the old one serves no more for REST. */
  renew(token: string): void;
  /** Switches a privileged intent. */
  allow(intents: ApplicationSpec["intents"]): void;
  readonly application: Application;
};

export function createApplication(world: World, spec: ApplicationSpec): AppHandle {
  const name = spec.name ?? "Bench bot";
  const bot = makeUser(world, name, true);
  const application: Application = {
    id: bot.id,
    name,
    token: spec.token,
    bot,
    intents: { messageContent: false, guildMembers: false, guildPresences: false, ...spec.intents },
    maxConcurrency: spec.maxConcurrency ?? 1,
    recommendedShards: spec.recommendedShards ?? 1,
    sessionStarts: 0,
    commands: new Map(),
    created: [],
    registrations: [],
  };
  world.applications.set(spec.token, application);
  return {
    id: application.id,
    token: spec.token,
    botId: bot.id,
    mention: `<@${bot.id}>`,
    commands: (guildId) => application.commands.get(guildId ?? "global") ?? [],
    registrations: application.registrations,
    renew(token) {
      world.applications.delete(application.token);
      application.token = token;
      world.applications.set(token, application);
    },
    allow(intents) {
      Object.assign(application.intents, intents);
    },
    application,
  };
}
