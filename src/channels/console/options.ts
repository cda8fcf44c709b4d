import { parseArgs } from "node:util";
import { err, ok, type Result } from "../../domain/result.ts";
import { type Instant, instant } from "../../domain/units/quantity.ts";

export type ChatOptions = {
  readonly data: string | undefined;
  readonly json: boolean;
  readonly simulate: Instant | undefined;
  readonly zone: string | undefined;
};

export const usage =
  "chat [--data DIR] [--json] [--simulate ISO-INSTANT] [--zone IANA]\n" +
  "  reads one message a line; with --simulate, @+3m15s and @2026-11-28T09:00 move the clock; # is a comment";

export function isZone(zone: string): boolean {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone);
    return true;
  } catch {
    return false;
  }
}

/** An instant with its offset; without one it is taken in `zone`. */
export function readInstant(text: string, zone: string): Instant | undefined {
  try {
    return instant(Temporal.Instant.from(text).epochMilliseconds);
  } catch {
    try {
      return instant(Temporal.PlainDateTime.from(text).toZonedDateTime(zone).epochMilliseconds);
    } catch {
      return undefined;
    }
  }
}

/** The options of script mode, or a sentence that says which one is wrong. */
export function readOptions(
  args: readonly string[],
  systemZone: string,
): Result<ChatOptions, string> {
  let values: { data?: string; json?: boolean; simulate?: string; zone?: string };
  try {
    ({ values } = parseArgs({
      args: [...args],
      options: {
        data: { type: "string" },
        json: { type: "boolean" },
        simulate: { type: "string" },
        zone: { type: "string" },
      },
      allowPositionals: false,
    }));
  } catch (error) {
    return err(error instanceof Error ? error.message : String(error));
  }
  const { data, json = false, zone } = values;
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
  return ok({ data, json, simulate, zone });
}
