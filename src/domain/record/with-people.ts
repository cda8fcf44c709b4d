import type { Bench } from "../session/bench.ts";
import { deeds, type Run } from "../session/run.ts";

type Deed = (typeof deeds)[number];

/** What one person's words did to a run. */
function deedsOf(before: Run | undefined, after: Run): readonly Deed[] {
  if (before === undefined) return ["planned"];
  const poured = after.stages.some(
    ({ inAt }, index) => inAt !== undefined && inAt !== before.stages[index]?.inAt,
  );
  return [
    ...(poured ? ["poured" as const] : []),
    ...(after.readings.length > before.readings.length ? ["read" as const] : []),
    ...(after.notes.length > before.notes.length ? ["noted" as const] : []),
    ...(after.after !== before.after || after.firstLook !== before.firstLook
      ? ["answered" as const]
      : []),
  ];
}

/** The bench after somebody's words, with their name beside what they did to each run. */
export function withPeople(before: Bench, after: Bench, who: string): Bench {
  if (before.runs === after.runs) return after;
  let { runs } = after;
  for (const [id, run] of Object.entries(after.runs)) {
    if (before.runs[id] === run) continue;
    const did = deedsOf(before.runs[id], run);
    const own = run.people?.find(({ name }) => name === who)?.did ?? [];
    const all = deeds.filter((deed) => own.includes(deed) || did.includes(deed));
    if (all.length === own.length) continue;
    const others = (run.people ?? []).filter(({ name }) => name !== who);
    runs = { ...runs, [id]: { ...run, people: [...others, { name: who, did: all }] } };
  }
  return runs === after.runs ? after : { ...after, runs };
}
