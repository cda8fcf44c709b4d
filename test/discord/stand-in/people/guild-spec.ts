import type { PermissionName } from "../permissions.ts";

/** Who an overwrite is for: a role or member by name, "@everyone", or "bot". */
export type OverwriteSpec = {
  readonly for: string;
  readonly allow?: readonly PermissionName[];
  readonly deny?: readonly PermissionName[];
};

export type ChannelSpec = {
  readonly name: string;
  readonly type?: "text" | "voice" | "category";
  readonly overwrites?: readonly OverwriteSpec[];
};

export type GuildSpec = {
  readonly name: string;
  /** Fixes the id, and so the shard. */
  readonly id?: string;
  /** What @everyone may do; the ordinary rights when left out. */
  readonly everyone?: readonly PermissionName[];
  readonly roles?: readonly {
    readonly name: string;
    readonly permissions?: readonly PermissionName[];
    readonly mentionable?: boolean;
  }[];
  readonly channels?: readonly (string | ChannelSpec)[];
  readonly members?: readonly (
    | string
    | {
        readonly name: string;
        readonly nick?: string;
        readonly roles?: readonly string[];
        readonly owner?: boolean;
      }
  )[];
  /** What the bot's own role may do besides; false leaves the bot outside. */
  readonly bot?: { readonly permissions?: readonly PermissionName[] } | false;
};
