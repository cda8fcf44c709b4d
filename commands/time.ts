import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { standingLine } from "../src/commands/run-lines.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { clockTime, dateOf, isoInstant, showDate } from "../src/domain/timing/clock-text.ts";
import { answer } from "../src/reply/reply.ts";

export const timeCommand = defineCommand({
  name: "time",
  summary: "The clock on the bench's wall, and where every tank stands.",
  topic: "bench",
  sentences: [
    "[what is|what] [the] (time|clock|date) [is it]",
    "what time is it",
    "what day is it",
  ],
  examples: ["what time is it"],
  fields: z.object({}),
  changes: false,
  aside: true,
  values: { now: "ISO instant", zone: "IANA zone of the bench" },
  run({ bench, now }) {
    const time = clockTime(now, bench.zone);
    return answer({
      title: `${time}, ${showDate(dateOf(now, bench.zone))}, ${bench.zone}`,
      lines: liveRuns(bench).map((run) => standingLine(bench, run, now)),
      say: `It is ${time.slice(0, 5)}.`,
      facts: { now: isoInstant(now), zone: bench.zone },
    });
  },
});
