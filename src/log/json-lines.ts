import { pino } from "pino";
import type { Facts, Level, LogSetting } from "./log.ts";

export type WriteLine = (level: Level, sentence: string, facts: Facts) => void;

/**
 * One JSON object a line, with `level` in words, `time` as an ISO instant and `msg`. Written at
 * once, so that nothing is lost when the process ends.
 *
 * @param to  takes whole lines; missing: the standard error
 */
export function jsonLines(
  setting: LogSetting,
  to: { write(line: string): void } = pino.destination({ dest: 2, sync: true }),
): WriteLine {
  const logger = pino(
    {
      level: setting,
      // Neither the machine's name nor the process's number: a service manager knows both.
      base: null,
      timestamp: pino.stdTimeFunctions.isoTime,
      formatters: { level: (label) => ({ level: label }) },
    },
    to,
  );
  return (level, sentence, facts) => logger[level](facts, sentence);
}
