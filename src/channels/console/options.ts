import { parseArgs } from "node:util";
import { err, ok, type Result } from "../../domain/result.ts";
import type { Instant } from "../../domain/units/quantity.ts";
import { isZone } from "../../domain/units/zone.ts";
import { readInstant } from "./read-instant.ts";

export type ChatOptions = {
  readonly data: string | undefined;
  readonly help: boolean;
  readonly json: boolean;
  readonly simulate: Instant | undefined;
  readonly zone: string | undefined;
};

export const usage = `Script mode: reads one message a line and prints the answers.

  npm run -s chat -- [--data DIR] [--json] [--simulate ISO-INSTANT] [--zone IANA]

  --data DIR      where the bench is kept; else WETSIDE_DATA, else ./bench-data
  --json          one JSON object a line instead of text; say "help values" for its keys
  --simulate T    the clock stands still at T and moves only by lines that start with @:
                  @+3m15s moves it on, @2026-11-28T09:00 moves it to that time on the bench
  --zone IANA     the zone of the bench, like Europe/Lisbon
  --help          this

Lines that start with # are comments; =Dora lets Dora speak from there on. Exit code 0 at the end of the input, 1 when the data
folder cannot be used, 2 for a wrong option.

  echo "how much water for a quart of developer" | npm run -s chat
`;

/** The options of script mode, or a sentence that says which one is wrong. */
export function readOptions(
  args: readonly string[],
  systemZone: string,
): Result<ChatOptions, string> {
  let values: { data?: string; help?: boolean; json?: boolean; simulate?: string; zone?: string };
  try {
    ({ values } = parseArgs({
      args: [...args],
      options: {
        data: { type: "string" },
        help: { type: "boolean", short: "h" },
        json: { type: "boolean" },
        simulate: { type: "string" },
        zone: { type: "string" },
      },
      allowPositionals: false,
    }));
  } catch (error) {
    return err(error instanceof Error ? error.message : String(error));
  }
  const { data, help = false, json = false, zone } = values;
  if (data === "") return err("--data needs a folder");
  if (zone !== undefined && !isZone(zone)) {
    return err(`--zone: "${zone}" is no IANA zone; give one like Europe/Lisbon`);
  }
  let simulate: Instant | undefined;
  if (values.simulate !== undefined) {
    simulate = readInstant(values.simulate, zone ?? systemZone);
    if (simulate === undefined) {
      return err(
        `--simulate: "${values.simulate}" is no instant; give one like 2026-11-28T19:30:00Z`,
      );
    }
  }
  return ok({ data, help, json, simulate, zone });
}
