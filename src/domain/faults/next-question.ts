import type { Seen } from "./diagnosis.ts";
import { type RankedCause, rankCauses } from "./rank.ts";
import type { Evidence } from "./run-facts.ts";
import type { FaultQuestion, FaultTables } from "./tables.ts";

/** More questions than this nobody answers at the sink (own bound, no source). */
const MOST = 4;

/** So far ahead that only what could overtake is asked about any more, in points (own bound). */
const AHEAD = 6;

/**
 * The next question worth asking: the first of the symptom's own that has not been answered and of
 * which some answer would change which causes stand in front. Undefined when enough is known.
 */
export function nextFaultQuestion(
  tables: FaultTables,
  seen: Seen,
  evidence: readonly Evidence[],
  process?: string,
): FaultQuestion | undefined {
  const asks = [...new Set(seen.symptoms.flatMap((id) => tables.symptoms.get(id)?.asks ?? []))];
  if (asks.filter((id) => Object.hasOwn(seen.given, id)).length >= MOST) return undefined;
  const ranked = (given: Seen["given"]): readonly RankedCause[] =>
    rankCauses(tables, { ...seen, given }, evidence, process);
  const before = ranked(seen.given);
  const [first, second] = before;
  const lead = (first?.points ?? 0) - (second?.points ?? 0);
  const front = (ranking: readonly RankedCause[]): string =>
    ranking
      .slice(0, lead >= AHEAD ? 1 : 2)
      .map(({ cause }) => cause.id)
      .join();
  const now = front(before);
  for (const id of asks) {
    const question = tables.questions.get(id);
    if (question === undefined || Object.hasOwn(seen.given, id)) continue;
    if (question.options.some(({ word }) => front(ranked({ ...seen.given, [id]: word })) !== now)) {
      return question;
    }
  }
  return undefined;
}
