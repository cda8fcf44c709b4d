import { capital } from "../domain/capital.ts";
import { ok } from "../domain/result.ts";
import type { Bench } from "../domain/session/bench.ts";
import { placeStart } from "../domain/session/keep-apart.ts";
import { explainRehearsal, rehearse } from "../domain/session/rehearsal.ts";
import type { Run } from "../domain/session/run.ts";
import { explainStagger } from "../domain/timing/stagger.ts";
import { type Instant, later, secondsBetween } from "../domain/units/quantity.ts";
import { plain } from "../domain/units/show.ts";
import { answer, type Reply, refuse, type Shown } from "../reply/reply.ts";
import { confirm } from "./define-command.ts";

type Wanted = {
  readonly collide?: boolean | undefined;
  readonly rehearsal?: { readonly speed: number } | undefined;
};

export const placeValues: Readonly<Record<string, string>> = {
  put_off_s: "by how much the first pour is put off for other tanks, s; missing when it is not",
  rehearsal_speed: "how many times faster a rehearsal runs; missing for a real run",
};

/** A rehearsal pours water: no bottle is looked for, asked about or refused. */
export const poursFrom = (bench: Bench, { rehearsal }: Wanted): Bench =>
  rehearsal === undefined ? bench : { ...bench, bottles: {} };

export type PlacedRun =
  | {
      readonly run: Run;
      readonly firstPour: Instant;
      /** How its instant came about, in words. */
      readonly how: string;
      readonly lines: readonly string[];
      readonly figures: Readonly<Record<string, Shown>>;
    }
  | { readonly reply: Reply };

/**
 * A planned run where one person's hands are free for it; where there is no room, a question. A
 * rehearsal is made of it first: its hands are as busy as any other.
 */
export function placeRun(
  bench: Bench,
  plan: Run,
  now: Instant,
  wanted: Wanted & Readonly<Record<string, unknown>>,
): PlacedRun {
  const made = wanted.rehearsal === undefined ? ok(plan) : rehearse(plan, wanted.rehearsal.speed);
  if (!made.ok) return { reply: refuse(made.error.kind, explainRehearsal(made.error)) };
  const run = made.value;
  const firstPour = run.stages[0]?.pourAt ?? now;
  const lead = `now plus the bench's lead of ${plain(secondsBetween(now, firstPour), 1)} s`;
  const { run: placed, found } = placeStart(bench, run, now);
  const why = explainStagger(found, run.tank, bench.zone);
  const asPlanned = { run, firstPour, how: lead, lines: [], figures: {} };
  if (why === undefined) return asPlanned;
  if (found.kind === "delay") {
    const origin = { kind: "computed", source: "the smallest delay without a collision" } as const;
    return {
      run: placed,
      firstPour: later(firstPour, found.delay),
      how: `${lead}, put off ${plain(found.delay, 0)} s for other tanks`,
      lines: [
        found.met?.one.what === "hold"
          ? capital(why)
          : `${capital(why)} One person serves all tanks; set one person per tank changes that.`,
      ],
      figures: { put_off_s: { value: found.delay, origin } },
    };
  }
  if (wanted.collide === false) {
    return {
      reply: answer({ title: "Then nothing is started.", say: "Then nothing is started." }),
    };
  }
  if (wanted.collide === true) {
    return {
      ...asPlanned,
      run: {
        ...run,
        notes: [...run.notes, { at: now, text: `Two pours at once, by an explicit yes. ${why}` }],
      },
      lines: [why],
    };
  }
  return {
    reply: confirm("start", wanted, "collide", `${why} Start it now all the same?`, {
      say: "No room for one pair of hands. Start all the same?",
    }),
  };
}
