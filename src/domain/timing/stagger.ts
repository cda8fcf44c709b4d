import { isLive, type Run, type Stage, withStage } from "../session/run.ts";
import { type Instant, later, type Seconds, seconds } from "../units/quantity.ts";
import { showDuration } from "../units/show.ts";
import { clockTime } from "./clock-text.ts";
import { layOut } from "./stage-clock.ts";

/** One pair of hands for all tanks, or a person at each. */
export const servings = ["one for all", "one per tank"] as const;
export type Serving = (typeof servings)[number];

/** A span in which a person's hands are busy with one tank: from `from` up to, not including, `to`. */
export type Busy = {
  readonly from: Instant;
  readonly to: Instant;
  /** Of the cue itself: a pour's hands are taken up before it. */
  readonly at: Instant;
  readonly what: "pour" | "pour out" | "hold";
  readonly bath: string;
};

/** What is in a tank from its pour to its end, and so not in its bottle. */
export type Hold = Busy & {
  readonly bottle: string;
  /** Of what the bottle holds, 0 to 1. */
  readonly share: number;
};

/** What one tank asks of one person. */
export type Hands = {
  readonly tank: string;
  readonly person: string;
  readonly busy: readonly Busy[];
  /** Of bottles whose share is known; missing: of none. */
  readonly holds?: readonly Hold[];
};

/** Two spans of one person, or of one bottle that has not enough for both, in two tanks. */
export type Collision = {
  readonly person: string;
  readonly one: Busy & { readonly tank: string };
  readonly other: Busy & { readonly tank: string };
};

export type Staggered =
  /** Seconds by which the first pour is put off; 0 where it may stay. `met` is the last it avoids. */
  | { readonly kind: "delay"; readonly delay: Seconds; readonly met: Collision | undefined }
  /** No delay up to the bound is free of collisions. */
  | { readonly kind: "no-room"; readonly bound: Seconds; readonly met: Collision };

/** Longest a start is put off, s: a longer wait is a plan of its own. */
export const MOST_DELAY = seconds(3600);

/** The bottle a stage is poured from and what of it, 0 to 1; undefined where that is not known. */
export type Share = (stage: Stage) => Pick<Hold, "bottle" | "share"> | undefined;

/**
 * The busy spans of a run: each pour from `lead` before it to the end of its window, each pouring
 * out from its cue to the end of the bath. Real instants where they are known, planned elsewhere.
 *
 * @param lead  hands are free this long before a pour, s: to take up the bottle
 * @param from   taken as first pour where the run has none yet
 * @param share  of its bottle that a stage takes, where both volumes are known
 */
export function handsOf(
  run: Run,
  { lead, from, serving, share }: { lead: Seconds; from: Instant; serving: Serving; share?: Share },
): Hands {
  const holds: Hold[] = [];
  const busy = layOut(run, from).flatMap((clock, index): Busy[] => {
    const stage = run.stages[index];
    if (clock === undefined || stage === undefined || stage.outAt !== undefined) return [];
    const { bath } = stage;
    const { pour, pourOut, end } = clock;
    const own = share?.(stage);
    if (own !== undefined)
      holds.push({ ...own, from: pour, to: end, at: pour, what: "hold", bath });
    return [
      { from: later(pour, -lead), to: later(pour, run.window), at: pour, what: "pour", bath },
      { from: pourOut, to: end, at: pourOut, what: "pour out", bath },
    ];
  });
  return {
    tank: run.tank,
    person: serving === "one for all" ? "all" : run.tank,
    busy: isLive(run) ? busy : [],
    ...(holds.length === 0 || !isLive(run) ? {} : { holds }),
  };
}

const pairsOf = (one: Hands, others: readonly Hands[]): readonly Collision[] =>
  others
    .filter(({ tank }) => tank !== one.tank)
    .flatMap((hands) => {
      const pair = (mine: Busy, theirs: Busy): Collision => ({
        person: one.person,
        one: { ...mine, tank: one.tank },
        other: { ...theirs, tank: hands.tank },
      });
      const busy = hands.person === one.person ? hands.busy : [];
      return [
        ...one.busy.flatMap((mine) => busy.map((theirs) => pair(mine, theirs))),
        ...(one.holds ?? []).flatMap((mine) =>
          (hands.holds ?? [])
            .filter((theirs) => notForBoth(mine, theirs))
            .map((theirs) => pair(mine, theirs)),
        ),
      ];
    });

const notForBoth = (one: Hold, other: Hold): boolean =>
  one.bottle === other.bottle && one.share + other.share > 1 + 1e-9;

const meet = (one: Busy, other: Busy): boolean =>
  one.from < other.to && other.from < one.to && one.from < one.to && other.from < other.to;

const moved = (hands: Hands, delay: number): Hands => {
  const put = <S extends Busy>(span: S): S => ({
    ...span,
    from: later(span.from, delay),
    to: later(span.to, delay),
    at: later(span.at, delay),
  });
  const { busy, holds } = hands;
  return {
    ...hands,
    busy: busy.map(put),
    ...(holds === undefined ? {} : { holds: holds.map(put) }),
  };
};

/** Every overlap between one tank and the others, in order of time. */
export const collisions = (
  one: Hands,
  others: readonly Hands[],
  delay: number = 0,
): readonly Collision[] =>
  pairsOf(moved(one, delay), others)
    .filter(({ one: mine, other }) => meet(mine, other))
    .toSorted((a, b) => startOf(a) - startOf(b));

const startOf = ({ one, other }: Collision): number => Math.max(one.from, other.from);

/**
 * The smallest delay, in whole seconds, that keeps a new run clear of those already planned or
 * under way. Exact: each pair of spans forbids one open interval of delays, and the first whole
 * second outside their union is taken; n pairs cost n log n.
 */
export function stagger(
  fresh: Hands,
  others: readonly Hands[],
  bound: Seconds = MOST_DELAY,
): Staggered {
  const forbidden = pairsOf(fresh, others)
    .filter(({ one, other }) => one.from < one.to && other.from < other.to)
    .map((pair) => ({
      pair,
      after: (pair.other.from - pair.one.to) / 1000,
      before: (pair.other.to - pair.one.from) / 1000,
    }))
    .toSorted((a, b) => a.after - b.after);
  let delay = 0;
  let last: Collision | undefined;
  for (const { pair, after, before } of forbidden) {
    // Sorted by their lower ends: none of the rest can hold a smaller delay.
    if (after >= delay) break;
    if (delay < before) {
      delay = Math.ceil(before);
      last = pair;
    }
  }
  const [met] = collisions(fresh, others);
  if (delay > bound && met !== undefined) return { kind: "no-room", bound, met };
  return { kind: "delay", delay: seconds(delay), met: last };
}

/** Has the first bath of this run not been poured yet? Only then may it be moved. */
export const maybeMoved = (run: Run, now: Instant): boolean => {
  const first = run.stages[0];
  if (first === undefined || !isLive(run) || run.current > 0 || first.inAt !== undefined)
    return false;
  return first.pourAt === undefined || first.pourAt > now;
};

/** The run with its first pour put off; unchanged once that pour has begun or waits for a word. */
export function putBack(run: Run, delay: Seconds, now: Instant): Run {
  const pourAt = run.stages[0]?.pourAt;
  if (!maybeMoved(run, now) || pourAt === undefined || delay <= 0) return run;
  return withStage(run, 0, { pourAt: later(pourAt, delay) });
}

/** "At 19:33:25 South needs blix poured in while North needs developer poured out." */
export function explainCollision(found: Collision, zone: string): string {
  const [early, late] =
    found.one.from <= found.other.from ? [found.one, found.other] : [found.other, found.one];
  return `At ${clockTime(late.from, zone)} ${doing(late)} while ${doing(early)}.`;
}

const doing = ({ tank, what, bath }: Busy & { readonly tank: string }): string =>
  what === "hold"
    ? `${tank} needs that bottle's ${bath}`
    : what === "pour"
      ? `${tank} needs ${bath} poured in`
      : `${tank} needs ${bath} poured out`;

/** What staggering does to a start, in words; undefined where it does nothing. */
export function explainStagger(found: Staggered, tank: string, zone: string): string | undefined {
  if (found.met === undefined) return undefined;
  if (found.kind === "no-room") {
    return `${explainCollision(found.met, zone)} No start within ${showDuration(found.bound)} keeps one pair of hands free for both. Start ${tank} later, or have a second person serve it.`;
  }
  return `put off ${showDuration(found.delay)}: ${explainOther(found.met, zone)}`;
}

/** "North pours out developer at 19:33:45." */
const explainOther = ({ other }: Collision, zone: string): string => {
  const { tank, what, bath, at, to } = other;
  return what === "hold"
    ? `${tank} has the same bottle's ${bath} in it until ${clockTime(to, zone)}.`
    : `${tank} ${what === "pour" ? "pours" : "pours out"} ${bath} at ${clockTime(at, zone)}.`;
};
