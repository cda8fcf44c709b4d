import type { Route } from "./call.ts";
import { callbackRoutes } from "./routes-callback.ts";
import { commandRoutes } from "./routes-commands.ts";
import { guildRoutes } from "./routes-guilds.ts";
import { messageRoutes } from "./routes-messages.ts";
import { selfRoutes } from "./routes-self.ts";
import { webhookRoutes } from "./routes-webhooks.ts";

/** Every route the stand-in knows; a request to any other is a violation. */
export const routes: readonly Route[] = [
  ...selfRoutes,
  ...guildRoutes,
  ...messageRoutes,
  ...callbackRoutes,
  ...webhookRoutes,
  ...commandRoutes,
];
