import { isDeveloper } from "../process/sheet.ts";
import { ofTheFilm } from "../session/film-readings.ts";
import { seconds } from "../units/quantity.ts";
import { plain, showDuration } from "../units/show.ts";
import type { Lesson, SessionStage, SessionSummary } from "./session-schema.ts";

type Seen = Omit<SessionSummary, "lesson" | "private">;
type Rule = (session: Seen) => Omit<Lesson, "rule"> | undefined;

/**
 * What most wants doing otherwise next time: the first of these rules that finds something. They
 * stand in the order in which we think a negative suffers (our own order, no source), and each is a
 * hint from what was logged, never a finding.
 */
const rules: readonly (readonly [Lesson["rule"], Rule])[] = [
  [
    "rehearsed",
    ({ rehearsal_speed }) =>
      rehearsal_speed === null
        ? undefined
        : { text: "A rehearsal: it shows where the hands are, nothing about film.", because: [] },
  ],
  [
    "still-running",
    ({ state }) =>
      state === "running"
        ? { text: "The run goes on: nothing can be learnt from it yet.", because: [] }
        : undefined,
  ],
  [
    "skipped-bath",
    ({ stages }) =>
      fromDeviations(
        stages.filter(({ skipped }) => skipped),
        / was skipped$/,
        (bath) => `If ${bath} was not left out on purpose, say its name before the pour next time.`,
      ),
  ],
  // Not half of a minimum is as good as leaving the bath out.
  ["short-minimum", ({ stages }) => fromShort(stages.filter(hardlyIn))],
  [
    "developer-temperature",
    ({ stages }) =>
      fromReadings(stages.filter(developing), ({ bath, moved_s }, way) =>
        moved_s === null
          ? `Perhaps the ${bath} was ${way}: next time measure it in the bath just before the pour, and bring the tank to it.`
          : `The ${bath} was ${way}; its time was moved to ${showDuration(seconds(moved_s))} to make up for it. Next time hold it nearer its aim, and no time need move.`,
      ),
  ],
  [
    "developer-time",
    ({ stages }) =>
      fromDeviations(
        stages.filter(developing),
        /(longer|shorter) than planned/,
        (bath) =>
          `Next time have the ${bath} pouring out when I say so: its time is the one that shows.`,
      ),
  ],
  [
    "given-up",
    ({ state, stages }) =>
      state === "stopped"
        ? {
            text: "The run was given up, so its film may tell little of the process: look at what was left out first.",
            because: stages
              .filter(({ real_s }) => real_s === null)
              .map(({ bath }) => `${bath}: not done`),
          }
        : undefined,
  ],
  ["short-minimum", ({ stages }) => fromShort(stages)],
  [
    "faint-edge",
    ({ first_look }) =>
      first_look?.edge_numbers === "faint" || first_look?.edge_numbers === "missing"
        ? {
            text: "The numbers on the edge are exposed at the factory, so look at the process first, not at the camera.",
            because: [`edge numbers ${first_look.edge_numbers}`],
          }
        : undefined,
  ],
  [
    "other-temperature",
    ({ stages }) =>
      fromReadings(
        stages.filter((stage) => !developing(stage)),
        ({ bath }, way) => `The ${bath} read ${way}: stand it in the water bath earlier next time.`,
      ),
  ],
  [
    "other-time",
    ({ stages }) =>
      fromDeviations(
        stages,
        /(longer|shorter) than planned/,
        (bath) => `The ${bath} kept another time than planned: have the next bottle open sooner.`,
      ),
  ],
  [
    "thermometer-unknown",
    ({ stages }) => {
      const because = stages.flatMap(({ readings }) =>
        readings.flatMap(({ unverified }) => unverified ?? []),
      );
      return because.length === 0
        ? undefined
        : {
            text: "The readings may be off: compare the thermometer with one you trust, near the working temperature.",
            because: [...new Set(because)],
          };
    },
  ],
  [
    "developer-not-read",
    ({ stages }) => {
      const unread = stages.filter(
        (stage) => developing(stage) && stage.aim_c !== null && stage.readings.length === 0,
      );
      const [first] = unread;
      return first === undefined || first.skipped
        ? undefined
        : {
            text: `Read the ${first.bath} at its start and its end next time: without that nothing can be told from the film.`,
            because: [`${first.bath}: no temperature`],
          };
    },
  ],
  [
    "words-not-heard",
    ({ stages }) =>
      fromDeviations(
        stages,
        /was not heard/,
        () => "Say in and out next time, even in one word: then the times are yours and not mine.",
      ),
  ],
  [
    "beats-missed",
    ({ stages }) => {
      const because = stages.flatMap(({ bath, beats }) =>
        beats === null || beats.late_s.length === 0
          ? []
          : [`${bath}: ${beats.late_s.length} beats told late`],
      );
      return because.length === 0
        ? undefined
        : {
            text: "Some beats came late: keep the program running, and lay a wall clock beside it.",
            because,
          };
    },
  ],
];

/** One lesson of a session. Where nothing was logged that differs, it says that and no more. */
export function lessonOf(session: Seen): Lesson {
  for (const [rule, find] of rules) {
    const found = find(session);
    if (found !== undefined) return { rule, ...found };
  }
  return {
    rule: "nothing-amiss",
    text: "Nothing that was logged differs from the plan: do it the same way again.",
    because: [],
  };
}

const hardlyIn = ({ sense, planned_s, real_s }: SessionStage): boolean =>
  sense === "at least" && real_s !== null && real_s < planned_s / 2;

const fromShort = (stages: readonly SessionStage[]) =>
  fromDeviations(
    stages,
    /shorter than planned, and its time is a minimum$/,
    (bath) => `Give the ${bath} its whole time next time: it is a minimum.`,
  );

const developing = ({ kind }: SessionStage): boolean => isDeveloper(kind);

function fromDeviations(
  stages: readonly SessionStage[],
  matching: RegExp,
  say: (bath: string) => string,
): Omit<Lesson, "rule"> | undefined {
  const hit = stages
    .map(({ bath, deviations }) => ({
      bath,
      found: deviations.filter((one) => matching.test(one)),
    }))
    .filter(({ found }) => found.length > 0);
  const [first] = hit;
  return first === undefined
    ? undefined
    : { text: say(first.bath), because: hit.flatMap(({ found }) => found) };
}

/** The bath that lay furthest outside its band, measured by the band. */
function fromReadings(
  stages: readonly SessionStage[],
  say: (stage: SessionStage, way: string) => string,
): Omit<Lesson, "rule"> | undefined {
  const outside = stages.flatMap((stage) => {
    const { bath, aim_c, tolerance_c, readings } = stage;
    return ofTheFilm(readings, ({ into_s }) => into_s).flatMap(({ temp_c, verdict }) => {
      if (aim_c === null || tolerance_c === null) return [];
      if (verdict !== "above" && verdict !== "below") return [];
      const off = Math.abs(temp_c - aim_c);
      const way = verdict === "above" ? "too warm" : "too cold";
      return [
        {
          stage,
          way,
          weight: off / Math.max(tolerance_c, 0.01),
          words: `${bath}: read ${plain(temp_c, 1)} °C, aim ${plain(aim_c, 1)} ±${plain(tolerance_c, 2)} °C`,
        },
      ];
    });
  });
  const [worst] = outside.toSorted((one, other) => other.weight - one.weight);
  return worst === undefined
    ? undefined
    : { text: say(worst.stage, worst.way), because: outside.map(({ words }) => words) };
}
