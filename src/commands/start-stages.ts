import type { BottleLook } from "../domain/chemistry/look.ts";
import { ownValue } from "../domain/own-value.ts";
import { agitationFor } from "../domain/process/agitation.ts";
import type { DeveloperTime } from "../domain/process/developer-time.ts";
import { type PlanTrouble, planStage } from "../domain/process/plan-stages.ts";
import { type Bath, isDeveloper, type Sheet } from "../domain/process/sheet.ts";
import type { Bench } from "../domain/session/bench.ts";
import { promisedFirst } from "../domain/session/follow-bottles.ts";
import type { Stage } from "../domain/session/run.ts";
import { celsius, type Instant, later } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { type Reply, refuse } from "../reply/reply.ts";
import { lookNow } from "./bottle-looks.ts";
import { coldWork } from "./cold-work.ts";
import { askFor } from "./define-command.ts";
import { developing } from "./developing.ts";
import { type Figures, figuresFor, ownLine } from "./own-figures.ts";
import { ownTank } from "./own-tank.ts";
import type { BathsMeant } from "./start-baths.ts";
import { bottleFor, type NamedBottles, namedBottles, sharing } from "./start-bottle.ts";
import { lessPromised } from "./start-guards.ts";

type Wanted = NamedBottles & {
  readonly tank?: string | undefined;
  readonly temperature?: number | undefined;
  readonly push?: number | undefined;
  readonly pushRule?: string | undefined;
  readonly estimate?: "sheet" | "middle" | undefined;
  readonly sheet?: string | undefined;
  /** The sheet, by id, whose developer figures were asked for where two could be meant. */
  readonly figures?: string | undefined;
};

export type Staged = {
  readonly stages: readonly Stage[];
  /** Bath to bottle, by spoken names. */
  readonly bottles: Readonly<Record<string, string>>;
  readonly looks: readonly BottleLook[];
  /** How the developer's time came about; undefined when the user gave it. */
  readonly developed: DeveloperTime | undefined;
  /** The baths as they were timed: a bottle's own sheet outranks the one in use. */
  readonly timed: readonly Bath[];
  /** Sheets bottles were mixed by that were gone by instead of the one in use. */
  readonly owners: readonly Sheet[];
  /** Whose figures were taken, where it is not plain. */
  readonly notes: readonly string[];
};

/**
 * Whose figures hold for a developer from this bottle. The bottle's own sheet, and where another
 * was named in the sentence, the one asked for.
 */
function whoseFigures(
  sheet: Sheet,
  bath: Bath,
  look: BottleLook | undefined,
  wanted: Wanted,
): (Figures & { readonly note?: string }) | { readonly reply: Reply } {
  const found = figuresFor(sheet, bath, look);
  if (!found.own || look === undefined) return found;
  if (wanted.figures === sheet.id) {
    const note = `Time by the ${sheet.name} sheet, as you said; ${look.bottle.name} was mixed by the ${found.sheet.name} sheet.`;
    return { sheet, bath, own: false, note };
  }
  if (wanted.sheet === undefined || wanted.figures === found.sheet.id)
    return { ...found, note: ownLine(found, look) };
  const names = [found.sheet, sheet];
  return {
    reply: askFor(
      "start",
      wanted,
      "figures",
      `${look.bottle.name} was mixed by the ${found.sheet.name} sheet. Whose ${bath.name} time: ${names.map(({ name }) => name).join(" or ")}?`,
      names.map(({ id, name }) => ({ word: name, value: id })),
      { say: `Whose ${bath.name} time: ${names.map(({ name }) => name).join(" or ")}?` },
    ),
  };
}

/** A temperature that was told is the developer's, or the first bath's where there is none. */
export const toldOf = (baths: readonly Bath[]): number =>
  Math.max(
    0,
    baths.findIndex(({ kind }) => isDeveloper(kind)),
  );

/**
 * Each bath with its bottle and its time, or the question or refusal that stands in the way.
 *
 * @param firstPour  when the first bath is poured: film that goes through a bottle before it counts
 * @param load       film of this tank, units
 */
export function stagesFor(
  bench: Bench,
  now: Instant,
  firstPour: Instant,
  sheet: Sheet,
  { baths, times }: BathsMeant,
  wanted: Wanted,
  load: number,
): Staged | { readonly reply: Reply } {
  const stages: Stage[] = [];
  const bottles: Record<string, string> = {};
  const looks: BottleLook[] = [];
  const timed: Bath[] = [];
  const owners: Sheet[] = [];
  const notes: string[] = [];
  const movement = wanted.tank === undefined ? undefined : ownTank(bench, wanted.tank)?.agitation;
  let developed: DeveloperTime | undefined;
  const warmed = toldOf(baths);
  const said = wanted.temperature === undefined ? undefined : celsius(wanted.temperature);
  let pour = firstPour;
  const named = namedBottles(bench, baths, wanted);
  for (const [index, bath] of baths.entries()) {
    const chosen = bottleFor(bench, sheet, bath, ownValue(named, bath.name), now);
    if ("wrong" in chosen) return { reply: chosen.wrong };
    if ("several" in chosen) {
      const names = chosen.several.map(({ name }) => name).join(" or ");
      return {
        reply: askFor(
          "start",
          { ...wanted, bottle: undefined, bottleOf: bath.name, poured: named },
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
    const at = index === warmed ? said : undefined;
    const warmth = at === undefined ? undefined : { at, estimate: wanted.estimate };
    const whose =
      time === undefined ? whoseFigures(sheet, bath, look, wanted) : { sheet, bath, own: false };
    if ("reply" in whose) return whose;
    if (whose.note !== undefined) notes.push(whose.note);
    if (whose.own) owners.push(whose.sheet);
    timed.push(whose.bath);
    const before = bottle === undefined ? [] : promisedFirst(bench, bottle.id, pour);
    const stops = first ? wanted.push : 0;
    const worked =
      isDeveloper(bath.kind) && time === undefined
        ? developing("start", wanted, whose.sheet, whose.bath, look, stops, wanted.pushRule, {
            first: before,
            load,
            warmth,
          })
        : coldWork(sheet, bath, time, at);
    if (worked !== undefined && "reply" in worked) return worked;
    if (first) developed = worked?.found;
    const planned = planStage(whose.bath, {
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
        : agitationFor(whose.bath, movement, stage.time, whose.sheet.process);
    const by = whose.own ? { sheet: whose.sheet.id } : {};
    stages.push({ ...stage, ...by, agitation, bottle: bottle?.id });
    pour = later(pour, stage.time + bench.window / 2);
  }
  const shared = sharing(
    bench,
    sheet,
    looks.map(({ bottle }) => bottle),
  );
  return shared === undefined
    ? { stages, bottles, looks, developed, timed, owners, notes }
    : { reply: shared };
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
