import { createHash } from "node:crypto";
import type { Pending } from "../../../conversation/record.ts";
import { standing } from "../../../domain/session/hear.ts";
import type { Run } from "../../../domain/session/run.ts";
import type { Instant } from "../../../domain/units/quantity.ts";
import type { Ask } from "../../../reply/reply.ts";

/** What buttons answer, as short text for their ids. */

/** A few letters that stand for a text. */
export const keyOfText = (text: string): string =>
  createHash("sha256").update(text).digest("base64url").slice(0, 6);

/** One question, asked once: what it fills, what it offers, and when it was asked. */
export const questionKey = ({ ask, at }: Pending): string => `q${at.toString(36)}-${askPrint(ask)}`;

const askPrint = ({ command, slot, fields, options }: Ask): string =>
  keyOfText(JSON.stringify([command, slot, fields, options ?? null]));

/** The letter of where a run stands: "a" is in by assumption. */
function letter(run: Run, now: Instant): string {
  const at = standing(run, now);
  if (at.kind === "in") return at.stage.plusMinus === undefined ? "i" : "a";
  return { planned: "w", pouring: "p", over: "o" }[at.kind];
}

/** One moment of a run: the bath it stands in, and what was being done with it. */
export type RunMoment = { readonly run: string; readonly stage: number; readonly letter: string };

export const runKey = (run: Run, now: Instant): string =>
  `${run.id}.${run.current}.${letter(run, now)}`;

export function readRunKey(key: string): RunMoment | undefined {
  const match = /^(.+)\.(\d{1,4})\.([a-z])$/.exec(key);
  if (match === null) return undefined;
  return { run: match[1] ?? "", stage: Number(match[2]), letter: match[3] ?? "" };
}

/** A reminder as it was told for one moment. */
export const reminderKey = (id: string, due: Instant): string => `${id}.${due.toString(36)}`;

export function readReminderKey(key: string): { id: string; due: Instant } | undefined {
  const match = /^(.+)\.(-?[0-9a-z]{1,12})$/.exec(key);
  if (match === null) return undefined;
  return { id: match[1] ?? "", due: Number.parseInt(match[2] ?? "", 36) as Instant };
}
