import { performance } from "node:perf_hooks";
import { loadCommands } from "../../src/commands/registry.ts";
import { newRecord } from "../../src/conversation/record.ts";
import { turn } from "../../src/conversation/turn.ts";
import { pouredIn } from "../../src/domain/session/hear.ts";
import { celsius, celsiusDifference, seconds } from "../../src/domain/units/quantity.ts";
import { at, runOf, stageOf, washOf } from "../support/runs.ts";
import { percentile } from "./percentile.ts";

const READINGS = 200;
const ROUNDS = 400;

export type Replan = { readonly readings: number; readonly p99: number; readonly max: number };

/** One more reading in a bath that has 200, from the sentence to the moved pour-out. Invented figures. */
export async function benchReplan(): Promise<Replan> {
  const commands = await loadCommands();
  const stage = stageOf({
    time: seconds(1200),
    temperature: celsius(20),
    tolerance: celsiusDifference(0.1),
    temperatureOrigin: { kind: "invented" },
    compensation: true,
    timeLaw: { kind: "q10", q10: 2.1, origin: { kind: "invented" } },
  });
  const wet = pouredIn(runOf([stage, washOf()], { lead: 0 }), at(0));
  const readings = Array.from({ length: READINGS }, (_, n) => ({
    at: at(2 + n * 3),
    stage: 0,
    bath: "developer",
    temperature: celsius(20 + 0.8 * Math.sin(n / 9)),
  }));
  const fresh = newRecord("bench", "UTC");
  const record = {
    ...fresh,
    bench: { ...fresh.bench, degrees: "C" as const, runs: { "run-1": { ...wet, readings } } },
  };
  const took: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    const text = `temperature ${(19.4 + (round % 9) / 10).toFixed(1)}`;
    const start = performance.now();
    const { reply } = turn(record, { text, who: "me" }, at(640 + (round % 60)), commands);
    took.push(performance.now() - start);
    if (reply.facts.drift === undefined) throw new Error(`not weighed: ${reply.title}`);
  }
  return { readings: READINGS, p99: percentile(took, 99), max: Math.max(...took) };
}
