import type { APIApplicationCommand } from "discord-api-types/v10";
import { commands } from "../limits/commands.ts";
import type { Application } from "../world.ts";
import { type Answer, type Call, caller, formOf, type Route } from "./call.ts";
import { guildOf } from "./find.ts";
import { Refusal } from "./refusal.ts";

/** @throws Refusal 20012 when the path names another application than the token's */
function own(call: Call): Application {
  const application = caller(call);
  if (call.params.application !== application.id)
    throw new Refusal(
      403,
      20012,
      "You are not authorized to perform this action on this application",
    );
  return application;
}

/** "global", or the guild of the path. */
const scopeOf = (call: Call): string =>
  call.params.guild === undefined ? "global" : guildOf(call).id;

const DAY = 86_400_000;
/** New commands a day and scope ("Registering a Command"). */
const CREATES = 200;

function refuseTooManyCreates(application: Application, scope: string, now: number): void {
  const recent = application.created.filter((one) => one.scope === scope && now - one.at < DAY);
  const [first] = recent;
  if (first === undefined || recent.length <= CREATES) return;
  throw new Refusal(
    429,
    30034,
    "Max number of daily application command creates has been reached (200)",
    {
      retryAfter: (DAY - (now - first.at)) / 1000,
    },
  );
}

/** Bulk Overwrite: a command that keeps its name keeps its id ("Updating and Deleting"). */
function overwrite(call: Call): Answer {
  const application = own(call);
  const scope = scopeOf(call);
  const forms = formOf(call, commands);
  const before = application.commands.get(scope) ?? [];
  const now = call.world.now();
  const fresh = forms.filter((form) => !before.some(({ name }) => name === form.name));
  application.created.push(...fresh.map(() => ({ scope, at: now })));
  refuseTooManyCreates(application, scope, now);
  const after = forms.map((form) => {
    const same = before.find(({ name }) => name === form.name);
    return {
      default_member_permissions: null,
      nsfw: false,
      ...form,
      type: 1,
      id: same?.id ?? call.world.ids.next(),
      application_id: application.id,
      version: call.world.ids.next(),
      ...(scope === "global" ? { contexts: form.contexts ?? null } : { guild_id: scope }),
    } as unknown as APIApplicationCommand;
  });
  application.commands.set(scope, after);
  application.registrations.push({ scope, at: now, count: after.length });
  return after;
}

const list = (call: Call): Answer => own(call).commands.get(scopeOf(call)) ?? [];

const bucket = { limit: 5, windowMs: 5000 };
const query = ["with_localizations"];
const everywhere = "/applications/:application/commands";
const inGuild = "/applications/:application/guilds/:guild/commands";

export const commandRoutes: readonly Route[] = [
  { method: "GET", path: everywhere, token: "bot", bucket, query, run: list },
  { method: "PUT", path: everywhere, token: "bot", bucket, run: overwrite },
  { method: "GET", path: inGuild, token: "bot", bucket, query, run: list },
  { method: "PUT", path: inGuild, token: "bot", bucket, run: overwrite },
];
