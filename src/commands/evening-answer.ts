import type { EveningPlan } from "../domain/film/evening.ts";
import { explainLeftOut } from "../domain/film/explain-evening.ts";
import { showFilm, togetherOf } from "../domain/film/load.ts";
import { callRolls, type Roll } from "../domain/film/roll.ts";
import { liveRuns } from "../domain/session/find-run.ts";
import { clockMinute, isoInstant } from "../domain/timing/clock-text.ts";
import { type Instant, later, secondsBetween } from "../domain/units/quantity.ts";
import { showDuration } from "../domain/units/show.ts";
import { answer, type Reply } from "../reply/reply.ts";
import type { Handling } from "./define-command.ts";
import { loadJson, loadLines, type Scene } from "./evening-lines.ts";
import type { EveningSupply } from "./evening-supplies.ts";
import { dryingOf, LONGEST_HOURS, ownOrHabit, setupOf } from "./evening-times.ts";
import { aboutSheet } from "./sheets.ts";

const MOST_LINES = 20;

/** What a plan was made of, for telling it. */
type Ground = {
  readonly rolls: readonly Roll[];
  readonly supplies: readonly EveningSupply[];
  readonly from: Instant;
  readonly until: Instant;
  readonly asked: unknown;
  readonly assumed: readonly string[];
};

const film = (rolls: readonly Roll[]): string =>
  showFilm(togetherOf(rolls.map(({ format }) => format)));

/** The plan as a reply: the loads, what waits and why, what is doubtful or not known. */
export function tellEvening(
  { bench, now }: Handling,
  plan: EveningPlan,
  { rolls, supplies, from, until, asked, assumed }: Ground,
): Reply {
  const byId = new Map(rolls.map((roll) => [roll.id, roll]));
  const call = asked === undefined ? callRolls : film;
  const scene: Scene = { from, zone: bench.zone, rolls: byId, call };
  const open = liveRuns(bench).map(({ tank }) => tank);
  const done = plan.loads.flatMap((load) => load.rolls.flatMap((id) => byId.get(id) ?? []));
  const finish = clockMinute(later(from, plan.minutes * 60), bench.zone);
  const named = secondsBetween(now, until) < LONGEST_HOURS * 3600;
  const count = plan.loads.length;
  const waiting = plan.leftOut.flatMap((left) => {
    const roll = byId.get(left.roll);
    return roll === undefined ? [] : [{ left, roll }];
  });
  const used = supplies.filter(({ supply }) =>
    plan.loads.some(({ process }) => process === supply.process),
  );
  const poured = new Set(plan.loads.flatMap(({ bottles }) => bottles));
  const looks = used
    .flatMap(({ bottles }) => bottles)
    .filter(({ bottle }) => poured.has(bottle.name));
  // A bottle that passed its test today needs no clip; it goes first with film that does not matter.
  const clips = plan.clipTests.filter((name) =>
    looks.some(({ bottle, doubts }) => bottle.name === name && doubts.length > 0),
  );
  const some = waiting.length === 1 ? "1 roll waits" : `${waiting.length} rolls wait`;
  return answer({
    title:
      count === 0
        ? `Nothing goes tonight; ${some}.`
        : `${count === 1 ? "1 load" : `${count} loads`}, ${done.length} of ${rolls.length} rolls, done by ${finish}`,
    lines: [
      ...(open.length === 0
        ? []
        : [
            `${open.join(", ")} comes first, until about ${clockMinute(from, bench.zone)}, and is not counted in.`,
          ]),
      ...loadLines(scene, plan),
      ...waiting
        .slice(0, MOST_LINES)
        .map(({ left, roll }) => `waits: ${explainLeftOut(left, roll, call([roll]))}`),
      ...(waiting.length > MOST_LINES ? [`and ${waiting.length - MOST_LINES} more wait.`] : []),
      ...assumed.map((one) => `${one.charAt(0).toUpperCase()}${one.slice(1)}.`),
      ...(named
        ? [`Planned until ${clockMinute(until, bench.zone)}.`]
        : count === 0
          ? []
          : [
              `No end was named; I looked ${LONGEST_HOURS} hours ahead. Say plan tonight until 23:00.`,
            ]),
      ...(plan.optimal || count === 0
        ? []
        : ["So many rolls and bottles cannot all be weighed: a good plan, perhaps not the best."]),
      ...(asked === undefined
        ? []
        : [
            `Only asked about: taken as ${supplies[0]?.supply.process ?? "unknown"} film, not pushed; the list is left out.`,
          ]),
      ...(count === 0 || asked !== undefined
        ? []
        : ["Nothing is started. Say start and the rolls when you are ready."]),
    ],
    say:
      count === 0
        ? "Nothing goes tonight. The reasons are on the screen."
        : `${count === 1 ? "One load" : `${count} loads`}, ${done.length} of ${rolls.length} rolls, done by ${finish}.`,
    figures: {
      loads: {
        value: plan.loads.map((load) => loadJson(scene, load)),
        origin: { kind: "computed", source: "sheet times, half a pour window a pour, setting up" },
      },
      rolls: { value: done.length, origin: { kind: "computed" } },
      important: {
        value: done.filter((one) => one.important).length,
        origin: { kind: "computed" },
      },
      total_min: { value: plan.minutes, origin: { kind: "computed" } },
      begin: {
        value: isoInstant(from),
        origin: { kind: "computed", source: "when open runs are over" },
      },
      drying_min: { value: dryingOf(bench) / 60, origin: ownOrHabit(bench.reelDrying) },
      setup_min: { value: setupOf(bench) / 60, origin: ownOrHabit(bench.loadSetup) },
    },
    facts: {
      left_out: waiting
        .slice(0, 200)
        .map(({ left, roll }) => ({ roll: roll.number, reason: left.kind })),
      until: isoInstant(until),
      optimal: plan.optimal,
      clip_tests: clips,
    },
    cautions: [
      ...clips.map(
        (name) =>
          `${name} is doubtful and no roll can test it. A clip of film first, before any roll.`,
      ),
      ...looks.flatMap(({ bottle, doubts }) => doubts.map((why) => `${bottle.name}: ${why}`)),
      ...used.flatMap(unknowns),
      ...new Set(used.flatMap(({ sheet, chosen }) => aboutSheet(sheet, chosen))),
    ],
    working: [
      "What counts, first difference decides: important rolls, rolls, film, few doubtful bottles, an early end.",
      ...used.map(({ supply, sheet }) => byProcess(plan, supply.process, sheet.name)),
      `A load is poured from one bottle of each bath, ${showDuration(setupOf(bench))} of it setting up.`,
      `Reels dry ${showDuration(dryingOf(bench))} before a tank is used again.`,
    ],
  });
}

/** "C-41 by ...: 32 min a load; from Acorn and Banjo." */
function byProcess({ loads }: EveningPlan, process: string, sheet: string): string {
  const own = loads.filter((load) => load.process === process);
  const lengths = own.map(({ start, end }) => end - start);
  const [least, most] = [Math.min(...lengths), Math.max(...lengths)];
  const bottles = [...new Set(own.flatMap((load) => load.bottles))];
  const from = bottles.length === 0 ? "" : `; from ${bottles.join(", ")}`;
  return `${process} by ${sheet}: ${least === most ? least : `${least} to ${most}`} min a load${from}.`;
}

function unknowns({ supply, unbottled, uncounted, unruled }: EveningSupply): readonly string[] {
  return [
    ...(unruled.length === 0
      ? []
      : [
          `${supply.process}: the sheet has no push rule, so pushed loads take longer than planned.`,
        ]),
    ...(unbottled.length === 0
      ? []
      : [
          `${supply.process}: no bottle of ${unbottled.join(", ")} is written down, so it is not counted.`,
        ]),
    ...(uncounted.length === 0
      ? []
      : [
          `${supply.process}: the sheet gives no capacity of ${uncounted.join(", ")}, so it sets no limit.`,
        ]),
  ];
}
