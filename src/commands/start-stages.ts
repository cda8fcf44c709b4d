import type { BottleLook } from "../domain/chemistry/look.ts";
import { agitationFor } from "../domain/process/agitation.ts";
import type { DeveloperTime } from "../domain/process/developer-time.ts";
import { type PlanTrouble, planStage } from "../domain/process/plan-stages.ts";
import { isDeveloper, type Sheet } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Stage } from "../domain/session/run.ts";
import { celsius, type Instant } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { type Reply, refuse } from "../reply/reply.ts";
import { lookNow } from "./bottle-looks.ts";
import { coldWork } from "./cold-work.ts";
import { askFor } from "./define-command.ts";
import { developing } from "./developing.ts";
import { ownTank } from "./own-tank.ts";
import type { BathsMeant } from "./start-baths.ts";
import { bottleFor, sharing } from "./start-bottle.ts";
import { lessPromised } from "./start-guards.ts";

type Wanted = {
  readonly bottle?: string | undefined;
  readonly tank?: string | undefined;
  readonly temperature?: number | undefined;
  readonly push?: number | undefined;
  readonly pushRule?: string | undefined;
  readonly estimate?: "sheet" | "middle" | undefined;
};

export type Staged = {
  readonly stages: readonly Stage[];
  /** Bath to bottle, by spoken names. */
  readonly bottles: Readonly<Record<string, string>>;
  readonly looks: readonly BottleLook[];
  /** How the developer's time came about; undefined when the user gave it. */
  readonly developed: DeveloperTime | undefined;
};

/** Each bath with its bottle and its time, or the question or refusal that stands in the way. */
export function stagesFor(
  bench: Bench,
  now: Instant,
  sheet: Sheet,
  { baths, times }: BathsMeant,
  wanted: Wanted,
): Staged | { readonly reply: Reply } {
  const stages: Stage[] = [];
  const bottles: Record<string, string> = {};
  const looks: BottleLook[] = [];
  const movement = wanted.tank === undefined ? undefined : ownTank(bench, wanted.tank)?.agitation;
  let developed: DeveloperTime | undefined;
  const developer = baths.findIndex(({ kind }) => isDeveloper(kind));
  const said = wanted.temperature === undefined ? undefined : celsius(wanted.temperature);
  for (const [index, bath] of baths.entries()) {
    const chosen = bottleFor(bench, sheet, bath, index === 0 ? wanted.bottle : undefined);
    if ("wrong" in chosen) return { reply: chosen.wrong };
    if ("several" in chosen) {
      const names = chosen.several.map(({ name }) => name).join(" or ");
      return {
        reply: askFor(
          "start",
          wanted,
          "bottle",
          `Which bottle of ${bath.name}: ${names}?`,
          chosen.several.map(({ id, name }) => ({ word: name, value: id })),
        ),
      };
    }
    const { bottle } = chosen;
    const look = bottle === undefined ? undefined : lookNow(bench, bottle, now);
    if (bottle !== undefined) bottles[bath.name] = bottle.name;
    if (look !== undefined) looks.push(lessPromised(bench, look));
    // Of several developers only the first is pushed (reversal: the first developer, SS0514, p. 4-3).
    const first = isDeveloper(bath.kind) && !stages.some(({ kind }) => isDeveloper(kind));
    const time = times[bath.name];
    const at = index === Math.max(0, developer) ? said : undefined;
    const warmth = at === undefined ? undefined : { at, estimate: wanted.estimate };
    const { push, pushRule } = wanted;
    const worked =
      isDeveloper(bath.kind) && time === undefined
        ? developing("start", wanted, sheet, bath, look, first ? push : 0, pushRule, warmth)
        : coldWork(sheet, bath, time, at);
    if (worked !== undefined && "reply" in worked) return worked;
    if (first) developed = worked?.found;
    const planned = planStage(bath, {
      // A time that was told is the normal one; a cold bath makes it longer.
      time: worked === undefined ? time : undefined,
      temperature: worked?.atAim === true ? undefined : at,
      worked: worked?.found,
    });
    if (!planned.ok) return { reply: explainPlan(planned.trouble) };
    const { stage } = planned;
    const agitation =
      movement === undefined
        ? stage.agitation
        : agitationFor(bath, movement, stage.time, sheet.process);
    stages.push({ ...stage, agitation, bottle: bottle?.id });
  }
  const shared = sharing(
    bench,
    sheet,
    looks.map(({ bottle }) => bottle),
  );
  return shared === undefined ? { stages, bottles, looks, developed } : { reply: shared };
}

function explainPlan(trouble: PlanTrouble): Reply {
  if (trouble.kind === "no-time") {
    return refuse(
      "no-time",
      `I have no time for ${trouble.bath}. Say start ${trouble.bath} for 3:15.`,
    );
  }
  return refuse(
    "too-short",
    `${trouble.bath}: ${showDuration(trouble.time)} leaves no time, the last ${showDuration(trouble.drain)} are for pouring out. Give a longer time.`,
    { say: `${showDuration(trouble.time)} is too short. Give a longer time.` },
  );
}
