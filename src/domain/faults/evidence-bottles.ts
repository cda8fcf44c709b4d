import type { BottleLook } from "../chemistry/look.ts";
import { isDeveloper } from "../process/sheet.ts";
import type { Run, Stage } from "../session/run.ts";
import { later } from "../units/quantity.ts";
import { plain } from "../units/show.ts";
import type { Evidence, RunFacts } from "./run-facts.ts";
import { bleaches, fixes, stabilizes } from "./run-facts.ts";

/** The share from which a limit is near, as on the shelf. */
const NEAR = 0.75;
/** Below this share of both clocks a bath counts as fresh (own bound, no source). */
const FRESH = 0.5;
const DAY = 24 * 3600;

/** What the age, the film done, the tests and the marks of each bottle say. */
export function bottleEvidence({ run, looks }: RunFacts): readonly Evidence[] {
  const told = new Set<string>();
  return run.stages.flatMap((stage) => {
    const look = looks.get(stage.bottle ?? "");
    if (look === undefined || stage.inAt === undefined || told.has(look.bottle.id)) return [];
    told.add(look.bottle.id);
    const roles = [
      ...(isDeveloper(stage.kind) ? ["developer"] : []),
      ...(fixes(stage.kind) ? ["fixing"] : []),
      ...(bleaches(stage.kind) ? ["bleaching"] : []),
      ...(stabilizes(stage.kind) ? ["stabilizer"] : []),
    ];
    const states = stateOf(run, look);
    const reuse = isDeveloper(stage.kind) ? reuseOf(run, stage, look) : [];
    return [
      ...roles.flatMap((role) =>
        states.map(({ kind, text }) => ({ kind: `${role}-${kind}`, text })),
      ),
      ...reuse,
    ];
  });
}

const percent = (share: number): string => `${plain(share * 100, 0)} %`;

function stateOf(run: Run, look: BottleLook): readonly Evidence[] {
  const { bottle, age, capacity } = look;
  const { name } = bottle;
  const counted = run.counted.find((entry) => entry.bottle === bottle.id);
  const done = Math.max(0, (counted?.after ?? bottle.used) - (bottle.replenished ?? 0));
  const worn = capacity === undefined ? undefined : done / capacity.value;
  const film =
    capacity === undefined
      ? undefined
      : `${name} had done ${plain(done, 2)} of ${plain(capacity.value, 2)} units with this film`;
  const old =
    age === undefined ? undefined : `${name} had used ${percent(age)} of its keeping time`;
  const both = [film, old].filter((text) => text !== undefined).join("; ");
  const past = (age ?? 0) > 1 + 1e-9 || (worn ?? 0) > 1 + 1e-9;
  const near = Math.max(age ?? 0, worn ?? 0) >= NEAR - 1e-9;
  const fresh = age !== undefined && worn !== undefined && Math.max(age, worn) < FRESH;
  const limit: Evidence[] = past
    ? [{ kind: "past", text: both }]
    : near
      ? [{ kind: "near", text: both }]
      : fresh && bottle.dateAssumed === undefined
        ? [{ kind: "fresh", text: both }]
        : [];
  const undated =
    bottle.dateAssumed === undefined
      ? []
      : [{ kind: "undated", text: `${name}: its mixing date is not known` }];
  return [...limit, ...undated, ...marks(look), ...tests(run, look)];
}

function marks({ bottle: { name, suspect } }: BottleLook): readonly Evidence[] {
  if (suspect === undefined) return [];
  const kind = suspect.contaminated === true ? "contaminated" : "suspect";
  return [{ kind, text: `${name} is suspect: ${suspect.why}` }];
}

/** The latest test since the day before the run: what it says now it says of then, more or less. */
function tests(run: Run, { bottle }: BottleLook): readonly Evidence[] {
  const test = (bottle.tests ?? []).filter(({ at }) => at >= later(run.plannedAt, -DAY)).at(-1);
  if (test === undefined) return [];
  const word = test.passed ? "passed" : "failed";
  return [{ kind: `test-${word}`, text: `${bottle.name} ${word} its clip test` }];
}

/** Film the developer had done, and whether its time allowed for that. */
function reuseOf(run: Run, stage: Stage, { bottle }: BottleLook): readonly Evidence[] {
  const before = run.counted.find((entry) => entry.bottle === bottle.id)?.before;
  if (before === undefined || before < 1) return [];
  const allowed = stage.corrections?.some(({ kind }) => kind === "re-use") === true;
  const units = `${plain(before, 2)} unit${before === 1 ? "" : "s"}`;
  return [
    allowed
      ? { kind: "reuse-allowed", text: `the time allowed for ${units} done before` }
      : {
          kind: "reuse-unallowed",
          text: `${bottle.name} had done ${units} before, and the time allowed for none`,
        },
  ];
}
