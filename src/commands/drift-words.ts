import type { DriftSize, Offer, Settled } from "../domain/temperature/compensate.ts";
import { type Seconds, seconds } from "../domain/units/quantity.ts";
import { plain, sayDuration, showDuration } from "../domain/units/show.ts";
import type { Shown } from "../reply/reply.ts";

type Stated = Extract<Settled, { kind: "state" }>;
type Replanned = Extract<Settled, { kind: "replan" }>;

/** Less than this is shown as 0 s, s. */
const NOTHING = 0.05;

const length = (time: number): string => {
  const size = Math.abs(time);
  return size < 60 ? `${plain(size, size < 10 ? 1 : 0)} s` : showDuration(seconds(size));
};

const much = (error: number): string => (error > 0 ? "too much" : "too little");

/** How large the error is, if nothing is changed; two ends where it is an estimate. */
export function sizeWords({ estimate, from, to, fromPercent, toPercent }: DriftSize): string {
  if (Math.max(Math.abs(from), Math.abs(to)) < NOTHING)
    return "just the development that was meant";
  if (!estimate) {
    return `${length(from)} of development ${much(from)} (${plain(Math.abs(fromPercent), 1)} %)`;
  }
  const [least, most] = Math.abs(from) <= Math.abs(to) ? [from, to] : [to, from];
  const [low, high] =
    Math.abs(fromPercent) <= Math.abs(toPercent)
      ? [fromPercent, toPercent]
      : [toPercent, fromPercent];
  return `${length(least)} to ${length(most)} of development ${much(most)} (estimate, ${plain(Math.abs(low), 1)} to ${plain(Math.abs(high), 1)} %)`;
}

export const whyWords: Record<Stated["why"], string> = {
  "not-allowed": "Your sheet does not allow a change of time, so I change nothing by myself.",
  "estimate-only": "This developer's coefficient is not known, so I change nothing by myself.",
  "beyond-limits":
    "All corrections together would go beyond half or double the sheet's time, so I change nothing by myself.",
  "already-out": "The film is out, or on its way: nothing can be changed any more.",
};

export function replanWords({ time, change, atOnce }: Replanned): {
  readonly title: string;
  readonly say: string;
} {
  if (atOnce) return { title: "enough is developed, pour out now", say: "Pour out now." };
  const way = change > 0 ? "later" : "earlier";
  return {
    title: `pour out ${length(change)} ${way}, ${showDuration(time)} in all`,
    say: `pour out ${Math.abs(change) < 60 ? `${Math.round(Math.abs(change))} seconds` : sayDuration(seconds(Math.abs(change)))} ${way}.`,
  };
}

/** What the options of the question come to. */
export function offerLines(
  offers: readonly Offer[],
  decision: Stated | Replanned,
  planned: Seconds,
): readonly string[] {
  const adjusted = decision.kind === "state" ? decision.adjusted : undefined;
  const words: Record<Offer, string> = {
    keep: `keep: ${showDuration(planned)} stands`,
    adjust: `adjust a little: ${showDuration(adjusted ?? planned)}, a tenth of the time at most`,
    log: "log as fault: the time stands and the record calls it a fault",
  };
  return offers.map((offer) => words[offer]);
}

export function driftFigures(decision: Settled): {
  readonly [key: string]: Shown;
} {
  const origin = {
    kind: "computed",
    source: "development at the planned end less what was meant, in seconds at the aim",
  } as const;
  const { from, to } = decision.size;
  return {
    error_from_s: { value: from, origin },
    error_to_s: { value: to, origin },
    ...(decision.kind === "replan"
      ? {
          time_s: {
            value: decision.time,
            origin: { kind: "computed", source: "integral of the rate over the readings" },
          },
          change_s: { value: decision.change, origin },
        }
      : {}),
    ...(decision.kind === "state" && decision.adjusted !== undefined
      ? { adjusted_s: { value: decision.adjusted, origin } }
      : {}),
  };
}

export const driftValues: Readonly<Record<string, string>> = {
  error_from_s: "what keeping to the plan is worth, s of development at the aim; one end",
  error_to_s: "the other end; the same unless it is an estimate",
  time_s: "the bath's time after re-planning, s",
  change_s: "how far the pour-out moved, s",
  adjusted_s: "the time that adjusting a little would give, s",
  drift: "nothing, replan, state, or outside when the law does not reach the reading",
  choice: "keep, adjust or log: what was chosen",
};
