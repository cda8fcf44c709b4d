import { z } from "zod";
import { instant } from "./quantity.ts";
import { isZone } from "./zone.ts";

/** A quantity of any bench: a sum or product of some is still a number. */
const MOST = 1e12;
export const storedNumber = z.number().min(-MOST).max(MOST);

/**
 * A bench's clock stands between 1970 and 2999 (`read-instant.ts`), and nothing it has done is older
 * than film. A reminder may be asked for as late as a year of four digits goes, in any zone.
 */
const FIRST_INSTANT = Temporal.Instant.from("1826-01-01T00:00Z").epochMilliseconds;
const LAST_INSTANT = Temporal.Instant.from("+010000-01-02T00:00Z").epochMilliseconds;

/** An instant as records keep it, ms; it counts in whole ones, whatever was written. */
export const storedInstant = z
  .number()
  .min(FIRST_INSTANT)
  .max(LAST_INSTANT)
  .transform((at) => instant(Math.round(at)));

/** An IANA zone that is known here. */
export const storedZone = z.string().refine(isZone, "no such zone");

const FIRST_DAY = "1826-01-01";
/** The clock's last day, in a zone that is ahead of it. */
const LAST_DAY = "3000-01-01";

/** An ISO date, of a day to come too. */
export const storedDay = z.iso
  .date()
  .refine((day) => day >= FIRST_DAY, "before there was any film");

/** An ISO date on which something was done or noted. */
export const storedPastDay = storedDay.refine(
  (day) => day <= LAST_DAY,
  "further than a clock goes",
);

/**
 * What something is called within its record, or leads to something there. A word that every
 * object of the language knows by itself ("constructor") is none: it would be found in any table.
 */
export const storedId = z
  .string()
  .refine((id) => !(id in Object.prototype), "a word of the language is no id");

/** Tables whose rules speak of one entry at a time: a change of one needs no look at the others. */
export const ofEachAlone = z.registry<Record<string, never>>();

/** Things under their ids; each says its own id again, and it is the same. */
export const storedById = <T extends z.ZodType<{ readonly id: string }>>(thing: T) =>
  z
    .record(z.string(), thing)
    .superRefine((all, context) => {
      for (const [key, { id }] of Object.entries(all)) {
        if (key === id) continue;
        context.addIssue({ code: "custom", path: [key, "id"], message: "kept under another id" });
      }
    })
    .register(ofEachAlone, {});
