import type { Bench } from "../../domain/session/bench.ts";
import { isoInstant } from "../../domain/timing/clock-text.ts";
import type { Instant } from "../../domain/units/quantity.ts";
import { showDuration } from "../../domain/units/show.ts";
import { type Moment, originsOf, type Reply, valuesOf } from "../../reply/reply.ts";
import { printable } from "./printable.ts";

/** What stands in front of a message that nobody asked for, so that the eye finds it. */
const head: Record<Reply["kind"], string> = {
  reply: "",
  refusal: "",
  question: "? ",
  cue: ">> ",
  reminder: "-- ",
};

/** A reply as text: all of it at the bench, one line with wet hands. */
export const renderText = (reply: Reply, mode: Bench["mode"]): string =>
  printable(textOf(reply, mode));

function textOf(reply: Reply, mode: Bench["mode"]): string {
  if (mode === "wet" && reply.kind !== "cue") return `${head[reply.kind]}${reply.say}`;
  if (mode === "dark") return reply.say;
  const lines = [
    `${head[reply.kind]}${reply.title}`,
    ...reply.lines.map((line) => `  ${line}`),
    ...reply.cautions.map((line) => `  ! ${line}`),
  ];
  if (reply.ask?.options !== undefined)
    lines.push(`  (${reply.ask.options.map(({ word }) => word).join(" / ")})`);
  return lines.join("\n");
}

/** Which kind of moment it is, in one short line. */
export function renderMoment(moment: Moment): string {
  if (moment.kind === "no-clock") return "no clock running";
  const left = Math.round(moment.left_s);
  const what = printable(`${moment.tank} ${moment.bath}`);
  return left >= 0
    ? `${what} ${showDuration(moment.left_s as Parameters<typeof showDuration>[0])} left`
    : `${what} over by ${-left} s`;
}

/** A reply as one line of JSON, the public form of script mode. */
export const renderJson = (reply: Reply, at: Instant): string =>
  JSON.stringify(
    {
      at: isoInstant(at),
      kind: reply.kind,
      title: reply.title,
      lines: reply.lines,
      say: reply.say,
      values: valuesOf(reply),
      origins: originsOf(reply),
      cautions: reply.cautions,
    },
    (_, value: unknown) => (typeof value === "string" ? printable(value) : value),
  );
