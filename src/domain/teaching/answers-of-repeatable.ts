import type { Repeatable } from "../record/repeatable.ts";
import { celsius, celsiusDifference, seconds } from "../units/quantity.ts";
import type { Answers, BathAnswers } from "./answers.ts";
import { checkBath } from "./check-answer.ts";

/**
 * A run from another bench as answers of a sheet, as if somebody had read them out. What it does
 * not hold, mixing, capacity and keeping, counts as not on the paper.
 *
 * @param from  where it came from, in words: stands behind every figure
 */
export function answersOf(block: Repeatable, name: string, from: string): Answers {
  return {
    name,
    process: block.process,
    measure: "metric",
    baths: block.baths.map((bath) => ({ name: bath.name, kind: bath.kind })),
    bath: Object.fromEntries(block.baths.map((bath) => [bath.name, bathAnswers(bath)])),
    from,
    ...(block.invented ? { invented: true } : {}),
  };
}

function bathAnswers(bath: Repeatable["baths"][number]): BathAnswers {
  const { time_s, sense, temp_c, tolerance_c, first_s, every_s, each_s, push } = bath;
  return {
    total: null,
    time: { time: seconds(time_s), sense },
    temperature:
      temp_c === undefined
        ? null
        : {
            temperature: celsius(temp_c),
            ...(tolerance_c === undefined ? {} : { tolerance: celsiusDifference(tolerance_c) }),
          },
    agitation:
      first_s === undefined
        ? null
        : {
            initial: seconds(first_s),
            ...(every_s === undefined ? {} : { every: seconds(every_s) }),
            ...(every_s === undefined || each_s === undefined ? {} : { each: seconds(each_s) }),
          },
    capacity: null,
    keeps: null,
    reuse: null,
    push:
      push === undefined
        ? null
        : { kind: "table", rows: [{ at: push.stops, time: seconds(push.time_s) }] },
    times: null,
  };
}

/** The first thing a check of teaching finds wrong with it, in one sentence. */
export const wrongWith = (answers: Answers): string | undefined =>
  (answers.baths ?? [])
    .map(({ name }) => checkBath(answers, name))
    .find((wrong) => wrong !== undefined);
