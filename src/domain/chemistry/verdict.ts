import { type Bottle, roleOf } from "./bottle.ts";
import { type BottleLook, failedTest } from "./look.ts";

/**
 * What becomes of a bath once film has been through it. `test`: doubtful, a clip test tells;
 * `ask`: no limit is known, so nobody but its user can say.
 */
export type Verdict = {
  readonly verdict: "return" | "retire" | "test" | "ask";
  readonly why: VerdictReason;
};

export type VerdictReason =
  | "retired"
  | "contaminated"
  | "failed-test"
  | "film-done"
  | "too-old"
  | "suspect"
  | "unproven"
  | "one-way"
  | "near-limit"
  | "good"
  | "no-limit-known";

/** The first of these that holds. What got in is never settled by a test; age and doubt may be. */
export function verdictOf(look: BottleLook): Verdict {
  const { bottle, worn, age, doubts, tested } = look;
  if (bottle.retiredOn !== undefined) return { verdict: "retire", why: "retired" };
  // A concentrate or a stock takes nothing back, whatever state it is in.
  if (roleOf(bottle) !== "working") return { verdict: "retire", why: "one-way" };
  if (isContaminated(bottle)) return { verdict: "retire", why: "contaminated" };
  if (failedTest(bottle)) return { verdict: "retire", why: "failed-test" };
  if ((worn ?? 0) >= 1 - 1e-9) return { verdict: "retire", why: "film-done" };
  if (bottle.suspect !== undefined) return { verdict: "test", why: "suspect" };
  if ((age ?? 0) > 1 + 1e-9) {
    return tested === undefined
      ? { verdict: "retire", why: "too-old" }
      : { verdict: "return", why: "near-limit" };
  }
  if (doubts.length > 0) return { verdict: "test", why: "unproven" };
  if (look.state === "near limit") return { verdict: "return", why: "near-limit" };
  if (age === undefined && worn === undefined) return { verdict: "ask", why: "no-limit-known" };
  return { verdict: "return", why: "good" };
}

const isContaminated = ({ suspect }: Bottle): boolean => suspect?.contaminated === true;
