import type { ReadingTaken, Run } from "../../src/domain/session/run.ts";
import { celsius, later } from "../../src/domain/units/quantity.ts";
import { at } from "./runs.ts";

type Read = { readonly stage: number; readonly into: number; readonly temperature: number };

/** A run that was poured bath after bath, some longer or shorter than planned, with its readings. */
export function livedRun(
  plan: Run,
  {
    off = {},
    read = [],
  }: { readonly off?: Record<number, number>; readonly read?: readonly Read[] } = {},
): Run {
  let from = at(40);
  const stages = plan.stages.map((stage, index) => {
    const outAt = later(from, stage.time + (off[index] ?? 0));
    const lived = { ...stage, pourAt: later(from, -10), inAt: from, outAt };
    from = later(outAt, 10);
    return lived;
  });
  const readings = read.map(({ stage, into, temperature }): ReadingTaken => {
    const lived = stages[stage];
    if (lived === undefined) throw new Error(`no stage ${stage}`);
    return {
      at: later(lived.inAt, into),
      stage,
      bath: lived.bath,
      temperature: celsius(temperature),
    };
  });
  const current = stages.length - 1;
  return { ...plan, stages, current, readings, endedAt: from, ending: "done" };
}
