import { faultTables } from "../data/faults.ts";
import { culpritsOf } from "../domain/faults/culprit.ts";
import type { Diagnosis } from "../domain/faults/diagnosis.ts";
import type { Cause } from "../domain/faults/tables.ts";
import { ownValue } from "../domain/own-value.ts";
import type { Bench } from "../domain/session/bench.ts";
import type { Run } from "../domain/session/run.ts";
import type { Culprit } from "../domain/session/suspicion.ts";
import { THE_BOTTLE } from "../language/readers/cause.ts";
import type { Reply } from "../reply/reply.ts";
import { askFor } from "./define-command.ts";
import { isUnnamed } from "./recall-list.ts";

/** How it was said what it was. */
type Wanted = {
  readonly number?: number | undefined;
  readonly cause?: string | undefined;
  readonly bottle?: string | undefined;
  readonly thermometer?: string | undefined;
};

/** The cause somebody says it was: by its place, its words, or what is to blame for it. */
export function causeMeant(
  { ranking }: Diagnosis,
  run: Run | undefined,
  { number, cause, bottle, thermometer }: Wanted,
): Cause | undefined {
  const ranked = ranking.flatMap((id) => faultTables.causes.get(id) ?? []);
  if (number !== undefined) return ranked[number - 1];
  const ofBottle = ({ culprit }: Cause): boolean =>
    culprit === "developer" || culprit === "fixing" || culprit === "bleaching";
  if (cause !== undefined && cause !== THE_BOTTLE) return faultTables.causes.get(cause);
  if (bottle !== undefined && run !== undefined) {
    return ranked.find(
      ({ culprit }) =>
        culprit !== undefined && culpritsOf(run, culprit).some(({ id }) => id === bottle),
    );
  }
  if (bottle !== undefined || cause === THE_BOTTLE) return ranked.find(ofBottle);
  return thermometer === undefined ? undefined : faultTables.causes.get("thermometer-off");
}

/** What is to be set apart: undefined where the cause blames nothing, or where no log names it. */
export function culpritMeant(
  bench: Bench,
  run: Run | undefined,
  { id, culprit: role }: Cause,
  { bottle, thermometer }: Wanted,
): Culprit | { readonly reply: Reply } | undefined {
  if (role === undefined) return undefined;
  if (bottle !== undefined && role !== "thermometer" && role !== "sheet") {
    return { kind: "bottle", id: bottle };
  }
  if (role === "thermometer" && thermometer !== undefined && !isUnnamed(thermometer)) {
    return { kind: "thermometer", id: thermometer.toLowerCase() };
  }
  const found = run === undefined ? [] : culpritsOf(run, role);
  const [only] = found;
  if (only !== undefined && found.length === 1) return only;
  if (role === "thermometer") {
    const names = found.map((one) => one.id);
    return {
      reply: askFor(
        "confirmed",
        { cause: id },
        "thermometer",
        `Which thermometer${names.length === 0 ? "" : `: ${names.join(" or ")}`}? Say a word for it, like red.`,
        names.length === 0 ? undefined : names,
        { say: "Which thermometer? Say a word for it." },
      ),
    };
  }
  if (found.length < 2) return undefined;
  const options = found.map((one) => ({
    word: ownValue(bench.bottles, one.id)?.name ?? one.id,
    value: one.id,
  }));
  return {
    reply: askFor(
      "confirmed",
      { cause: id },
      "bottle",
      `Which bottle: ${options.map(({ word }) => word).join(" or ")}?`,
      options,
    ),
  };
}
