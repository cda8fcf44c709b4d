import { z } from "zod";
import { ownValue } from "../own-value.ts";
import type { Instant } from "../units/quantity.ts";
import { storedInstant } from "../units/stored.ts";
import type { Bench } from "./bench.ts";
import { isLive } from "./run.ts";

export const thingKinds = ["bottle", "tank", "thermometer"] as const;

export const inUseSchema = z.object({
  kind: z.enum(thingKinds),
  /** As it is called on this bench. */
  name: z.string(),
  by: z.string(),
  since: storedInstant,
});

/** A thing of the bench by what it is called. */
export type Thing = { readonly kind: (typeof thingKinds)[number]; readonly name: string };

/** Somebody has it: signed in, or at work in a run that somebody planned. */
export type Taken = Thing & {
  readonly by: string;
  readonly since: Instant;
  /** The tank of the run it serves; missing where it was signed in by word. */
  readonly run?: string | undefined;
};

const keyOf = ({ kind, name }: Thing): string => `${kind} ${name.toLowerCase()}`;

export const isSame = (one: Thing, other: Thing): boolean => keyOf(one) === keyOf(other);

export function signIn(bench: Bench, thing: Thing, by: string, since: Instant): Bench {
  const { kind, name } = thing;
  return { ...bench, inUse: { ...bench.inUse, [keyOf(thing)]: { kind, name, by, since } } };
}

/** The bench with these things free again. */
export function signOut(bench: Bench, things: readonly Thing[]): Bench {
  const free = new Set(things.map(keyOf));
  const left = Object.entries(bench.inUse ?? {}).filter(([key]) => !free.has(key));
  return { ...bench, inUse: Object.fromEntries(left) };
}

/** Everything that somebody has: what was signed in, then what open runs need. */
export function takenThings(bench: Bench): readonly Taken[] {
  const signed: readonly Taken[] = Object.values(bench.inUse ?? {});
  const working = Object.values(bench.runs)
    .filter(isLive)
    .flatMap((run): readonly Taken[] => {
      const [first] = run.stages.flatMap(({ inBy }) => inBy ?? []);
      const by = run.by ?? first ?? "someone";
      const taken = { by, since: run.plannedAt, run: run.tank };
      const ahead = run.stages.filter((stage, n) => n >= run.current && stage.skipped !== true);
      const bottles = [...new Set(ahead.flatMap(({ bottle }) => bottle ?? []))];
      return [
        { ...taken, kind: "tank", name: run.tank },
        ...bottles.flatMap((id): readonly Taken[] => {
          const name = ownValue(bench.bottles, id)?.name;
          return name === undefined ? [] : [{ ...taken, kind: "bottle", name }];
        }),
      ];
    });
  return [...signed, ...working.filter((one) => !signed.some((other) => isSame(one, other)))];
}

/** What a name means among bottles, tanks and thermometers; said with its kind, only of that. */
export function thingsCalled(bench: Bench, text: string): readonly Thing[] {
  const words = text
    .toLowerCase()
    .replace(/^(the|my|our) /, "")
    .split(" ");
  const kind = thingKinds.find(
    (one) => words.length > 1 && (words[0] === one || words.at(-1) === one),
  );
  const said = words.filter((word) => word !== kind).join(" ");
  const tanks = [
    ...Object.values(bench.tanks).map(({ name }) => name),
    ...Object.values(bench.runs).map(({ tank }) => tank),
  ];
  const all: readonly Thing[] = [
    ...Object.values(bench.bottles)
      .filter(({ retiredOn }) => retiredOn === undefined)
      .map(({ name }): Thing => ({ kind: "bottle", name })),
    ...new Map(tanks.map((name) => [name.toLowerCase(), name]))
      .values()
      .map((name): Thing => ({ kind: "tank", name })),
    ...Object.values(bench.thermometers).map(({ name }): Thing => ({ kind: "thermometer", name })),
  ];
  return all.filter(
    (thing) => thing.name.toLowerCase() === said && (kind === undefined || thing.kind === kind),
  );
}
