import type {
  APIApplicationCommand,
  APIApplicationCommandOptionChoice,
  APIEmbed,
  APIMessageTopLevelComponent,
  APIModalInteractionResponseCallbackData,
  InteractionResponseType,
  InteractionType,
  MessageFlags,
  MessageType,
} from "discord-api-types/v10";
import type { Ids } from "./time-and-ids.ts";
import { createVoiceWorld, type VoiceWorld } from "./voice-states.ts";

/** What the stand-in keeps in mind. Ids are snowflakes, times Unix milliseconds. */
export type World = {
  readonly now: () => number;
  readonly ids: Ids;
  readonly applications: Map<string, Application>;
  readonly users: Map<string, User>;
  readonly guilds: Map<string, Guild>;
  readonly channels: Map<string, Channel>;
  readonly interactions: Map<string, Interaction>;
  readonly interactionTokens: Map<string, Interaction>;
  /** The last message of an author with a nonce, by "author nonce". */
  readonly nonces: Map<string, Message>;
  readonly violations: Violation[];
  readonly voice: VoiceWorld;
  /** Where events go, and how many sockets heard; the gateway takes this over. */
  announce: (event: Announcement) => number;
};

/** Something the bot did that the real service forbids, refuses, or would punish. */
export type Violation = { readonly kind: string; readonly detail: string };

export type Application = {
  readonly id: string;
  readonly name: string;
  token: string;
  readonly bot: User;
  /** Which privileged intents the owner switched on. */
  readonly intents: {
    messageContent: boolean;
    guildMembers: boolean;
    guildPresences: boolean;
  };
  readonly maxConcurrency: number;
  readonly recommendedShards: number;
  sessionStarts: number;
  /** By scope: "global" or a guild's id. */
  readonly commands: Map<string, APIApplicationCommand[]>;
  /** When commands were made that were not there before. */
  readonly created: { readonly scope: string; readonly at: number }[];
  /** How often each scope was overwritten in bulk. */
  readonly registrations: { readonly scope: string; readonly at: number; readonly count: number }[];
};

export type User = {
  readonly id: string;
  readonly username: string;
  name: string;
  readonly bot: boolean;
  /** Takes no direct messages. */
  closed: boolean;
};

export type Role = {
  readonly id: string;
  readonly name: string;
  permissions: bigint;
  readonly position: number;
  /** Who may mention it without the permission to mention all. */
  readonly mentionable: boolean;
  /** The bot it came with. */
  readonly botId: string | undefined;
};

export type Member = {
  readonly user: User;
  nick: string | undefined;
  readonly roles: Set<string>;
  readonly joinedAt: number;
};

export type Guild = {
  readonly id: string;
  readonly name: string;
  readonly ownerId: string;
  readonly roles: Map<string, Role>;
  readonly members: Map<string, Member>;
  readonly channelIds: Set<string>;
};

export type Overwrite = {
  readonly id: string;
  readonly type: 0 | 1;
  allow: bigint;
  deny: bigint;
};

export type Channel = {
  readonly id: string;
  readonly name: string;
  readonly type: 0 | 1 | 2 | 4;
  readonly guildId: string | undefined;
  readonly overwrites: Map<string, Overwrite>;
  /** Of a direct message: the two who talk. */
  readonly recipients: readonly User[];
  readonly messages: Message[];
  /** When messages older than an hour were edited here, which has a limit of its own. */
  oldEdits: number[];
  typing: { readonly by: string; readonly at: number }[];
};

export type Attachment = {
  readonly id: string;
  readonly filename: string;
  readonly contentType: string;
  readonly bytes: Uint8Array;
  readonly description: string | undefined;
};

/** What a message says, which an edit may change. */
export type Said = {
  readonly content: string;
  readonly embeds: readonly APIEmbed[];
  readonly components: readonly APIMessageTopLevelComponent[];
  readonly attachments: readonly Attachment[];
};

export type Message = {
  readonly id: string;
  readonly channelId: string;
  readonly author: User;
  readonly type: MessageType;
  readonly at: number;
  said: Said;
  /** What it said before each edit, oldest first. */
  readonly edits: { readonly said: Said; readonly at: number }[];
  flags: MessageFlags;
  /** Users whose device rings, by id; "everyone" for all. */
  readonly pinged: readonly string[];
  /** Users, roles mentioned in the text and its allowed mentions. */
  mentions: readonly User[];
  mentionRoles: readonly string[];
  mentionEveryone: boolean;
  readonly nonce: string | number | undefined;
  readonly reference: string | undefined;
  readonly interactionId: string | undefined;
  readonly applicationId: string | undefined;
  /** Only this user sees it. */
  readonly onlyFor: string | undefined;
  deletedAt: number | undefined;
};

export type Interaction = {
  readonly id: string;
  readonly token: string;
  readonly type: InteractionType;
  readonly application: Application;
  readonly user: User;
  readonly channelId: string;
  readonly guildId: string | undefined;
  readonly at: number;
  /** Of a button, a select or a form from one. */
  readonly messageId: string | undefined;
  readonly payload: object;
  /** Whether any socket was there to hear of it. */
  delivered: boolean;
  acknowledged: { readonly type: InteractionResponseType; readonly at: number } | undefined;
  /** The response; for a press that was taken silently, the message it sits on. */
  original: Message | undefined;
  readonly followUps: Message[];
  modal: APIModalInteractionResponseCallbackData | undefined;
  choices: readonly APIApplicationCommandOptionChoice[] | undefined;
};

/** An event on its way to whoever may hear of it. */
export type Announcement = {
  readonly t: string;
  /** The guild it happened in; undefined is a direct message or a matter of the bot's own. */
  readonly guildId: string | undefined;
  /** Only this application hears of it. */
  readonly only?: Application;
  /** The intents of which one is needed; 0 needs none. */
  readonly intents: number;
  /** Whether the bot may hear of it, by its permissions. */
  readonly heardBy?: (application: Application) => boolean;
  /** The payload as this listener sees it. */
  readonly data: (application: Application, intents: number) => object;
};

export function createWorld(now: () => number, ids: Ids): World {
  return {
    now,
    ids,
    applications: new Map(),
    users: new Map(),
    guilds: new Map(),
    channels: new Map(),
    interactions: new Map(),
    interactionTokens: new Map(),
    nonces: new Map(),
    violations: [],
    voice: createVoiceWorld(),
    announce: () => 0,
  };
}
