import { z } from "zod";
import { instant } from "./quantity.ts";
import { isZone } from "./zone.ts";

/** The furthest instant a calendar can name, ms either way: ECMA-262, time values (from memory). */
const FURTHEST = 8.64e15;

/** A quantity of any bench: a sum or product of some is still a number. */
const MOST = 1e12;
export const storedNumber = z.number().min(-MOST).max(MOST);

/** An instant as records keep it: what no calendar can show is no instant. */
export const storedInstant = z.number().min(-FURTHEST).max(FURTHEST).transform(instant);

/** An IANA zone that is known here. */
export const storedZone = z.string().refine(isZone, "no such zone");

/** An ISO date. */
export const storedDay = z.iso.date();
