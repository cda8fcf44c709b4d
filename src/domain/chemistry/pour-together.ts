import { type Millilitres, millilitres, units } from "../units/quantity.ts";
import { type Bottle, contentsOf, sizeOf } from "./bottle.ts";
import { levelOf, withFill } from "./fill.ts";

/**
 * The same solution from one bottle into another. Of the two, the older date, the longer time with
 * air and the harder work hold for the whole; what was suspect in one is suspect in both.
 */
export function pourTogether(
  target: Bottle,
  from: Bottle,
  volume: Millilitres,
  today: string,
): Bottle {
  const older = from.mixedOn < target.mixedOn ? from : target;
  const contents = millilitres(contentsOf(target) + volume);
  const total = millilitres(Math.max(target.volume, contents));
  const work = Math.max(
    ...[target, from].map(({ used, volume: all }) => (all > 0 ? used / all : 0)),
  );
  const joined: Bottle = {
    ...target,
    mixedOn: older.mixedOn,
    volume: total,
    size: sizeOf(target),
    contents,
    used: units(work * total),
    mixedFrom: [...new Set([...(target.mixedFrom ?? []), from.id])],
    ...(older.fills === undefined ? {} : { fills: older.fills }),
    ...(older.dateAssumed === undefined ? {} : { dateAssumed: older.dateAssumed }),
    ...(target.suspect === undefined && from.suspect !== undefined
      ? {
          suspect: {
            since: from.suspect.since,
            why: `${from.name} went into it, which is suspect`,
            ...(from.suspect.from === undefined ? {} : { from: from.suspect.from }),
          },
        }
      : {}),
  };
  return withFill(joined, levelOf(contents, sizeOf(joined)), today);
}
