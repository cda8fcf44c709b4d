import { z } from "zod";
import { better, isFit, kindOf } from "../domain/chemistry/capacity-left.ts";
import { type BottleLook, failedTest } from "../domain/chemistry/look.ts";
import { shareOut } from "../domain/chemistry/share-out.ts";
import { type Film, filmUnits, showFilm } from "../domain/film/load.ts";
import { isDeveloper } from "../domain/process/sheet.ts";
import { type Units, units } from "../domain/units/quantity.ts";
import { showUnits } from "../domain/units/show.ts";
import { answer, type Json, type Reply, refuse } from "../reply/reply.ts";
import { governsWords, stateWord } from "./bottle-lines.ts";
import { looksNow } from "./bottle-looks.ts";
import { askFor, type Handling } from "./define-command.ts";
import { filmJson, filmLoad, settleFilm } from "./film-load.ts";

export const canDoFields = z.object({
  solution: z.string().optional(),
  film: filmLoad(200, "More than 200 rolls is no evening. Give tonight's film.").optional(),
  bottle: z.string().optional(),
});

export const canDoValues: Readonly<Record<string, string>> = {
  can: "true when the sound bottles of every bath have enough left, no roll split between two",
  film: "formats and counts",
  units: "that film, units of 80 sq in",
  bottles:
    "one entry a bottle to use, in order: bath, process, bottle, units_left, enough (its bath has; null when unknown), takes (units of that film; null when it is not known), state",
  bottle: "the bottle to use, when one bath was asked for",
  bath: "the bath asked for",
};

/** Which bottles would take some film, over the bench's bottles by bath, and whether they can. */
export function canDo(
  { bench, now }: Pick<Handling, "bench" | "now">,
  wanted: z.output<typeof canDoFields>,
): Reply {
  const settled = wanted.film === undefined ? { film: [], assumed: [] } : settleFilm(wanted.film);
  if ("ask" in settled) {
    return askFor("which bottle", wanted, "film", settled.ask, settled.options);
  }
  const { film, assumed } = settled;
  const load = filmUnits(film);
  const looks = looksNow(bench, now).filter(
    ({ bottle }) =>
      (bottle.role ?? "working") === "working" &&
      (wanted.bottle === undefined || bottle.id === wanted.bottle),
  );
  const all = byBath(looks, wanted.solution, bench.sheetInUse);
  if (all.length === 0) {
    return refuse(
      "no-bottle",
      wanted.solution === undefined
        ? "There is no bottle to use. Say bottle developer 1 litre mixed today."
        : `There is no bottle of ${wanted.solution}. Say bottle ${wanted.solution} 1 litre mixed today.`,
      { say: "There is no such bottle." },
    );
  }
  const unfit = all.filter((group) => !group.some(isFit));
  if (unfit.length > 0) return noneFit(unfit);
  const groups = all.map((group) => group.filter(isFit));
  const picks = groups.flatMap((group) => share(group, film, load));
  const shared = picks.filter(({ parted }) => parted === true);
  const rows: Json[] = picks.map(({ look, enough, takes }) => ({
    bath: kindOf(look),
    process: look.sheet?.process ?? null,
    bottle: look.bottle.name,
    units_left: look.unitsLeft ?? null,
    enough: enough ?? null,
    takes: takes ?? null,
    state: look.state,
  }));
  const short = picks.filter(({ enough }) => enough === false);
  const open = picks.filter(({ enough }) => enough === undefined);
  const can = short.length === 0 && open.length === 0;
  const lines = [
    ...(film.length === 0
      ? []
      : [
          `Film: ${showFilm(film)}, ${showUnits(load)}${assumed.length > 0 ? ` (${assumed.join("; ")})` : ""}.`,
        ]),
    ...picks.map(pickLine),
    ...(shared.length === 0
      ? []
      : ["A load is never split between two bottles of a bath: keep to these shares."]),
    ...picks.flatMap(({ look }) =>
      look.doubts.length === 0
        ? []
        : [`Clip test ${look.bottle.name} first: ${look.doubts.join("; ")}.`],
    ),
  ];
  const common = {
    lines,
    figures: {
      bottles: { value: rows, origin: { kind: "own log" as const } },
      ...(film.length === 0
        ? {}
        : {
            units: {
              value: load,
              origin: { kind: "computed" as const, source: "film area by 80 sq in" },
            },
          }),
    },
    working: [
      "The bottle whose limit comes first is used first, if it is sound and has enough; where none has, the film is shared out.",
    ],
  };
  const [first] = picks;
  if (first !== undefined && (wanted.solution !== undefined || film.length === 0)) {
    const name = first.look.bottle.name;
    const parts = picks
      .filter((one) => kindOf(one.look) === kindOf(first.look) && one.parted === true)
      .map(({ look, takes }) => `${look.bottle.name} for ${showUnits(units(takes ?? 0))}`);
    const whole = `${name}, the ${first.look.bottle.mark}`;
    return answer({
      ...common,
      title: `${kindOf(first.look)}: take ${parts.length === 0 ? whole : parts.join(", then ")}.`,
      say:
        parts.length === 0
          ? `Take ${whole}.`
          : parts.length === 2
            ? `Take ${parts.join(", then ")}.`
            : `Take ${name} first, then ${parts.length - 1} others.`,
      facts: {
        can,
        bottle: name,
        bath: kindOf(first.look),
        film: filmJson(film),
      },
    });
  }
  const why = short.map(({ look }) => look.bottle.name).join(", ");
  const title = can
    ? `Yes: ${showUnits(load)}, and each bath has enough.`
    : short.length > 0
      ? `No, not as it stands: ${why}.`
      : `I cannot tell: no sheet says what ${open.map(({ look }) => look.bottle.name).join(", ")} can do.`;
  return answer({
    ...common,
    title,
    say: can
      ? "Yes. Each bath has enough."
      : short.length > 0
        ? `Not as it stands: see ${short[0]?.look.bottle.name}.`
        : "I cannot tell; a capacity is not known.",
    facts: { can, film: filmJson(film) },
  });
}

type Choice = {
  readonly look: BottleLook;
  readonly enough: boolean | undefined;
  /** Units of the film that it takes, where that is settled. */
  readonly takes?: number;
  /** Other bottles of its bath take the rest. */
  readonly parted?: boolean;
};

/** Not one bottle of a bath is fit to be named: what stands against each, and the way out. */
function noneFit(groups: readonly (readonly BottleLook[])[]): Reply {
  const baths = groups.flatMap(([first]) => (first === undefined ? [] : [kindOf(first)]));
  const looks = groups.flat();
  const testable = looks.find(
    ({ bottle, unitsLeft }) =>
      bottle.suspect?.contaminated !== true && !failedTest(bottle) && (unitsLeft ?? 1) > 1e-6,
  );
  return refuse(
    "no-sound-bottle",
    `No sound bottle of ${baths.join(" or ")}. Mix fresh${testable === undefined ? "" : `, or say clip test ${testable.bottle.name}`}.`,
    {
      say: `No sound bottle of ${baths[0] ?? "it"}. Mix fresh.`,
      lines: looks.map((look) => {
        const why = look.doubts.length > 0 ? look.doubts.join("; ") : governsWords(look);
        return `${kindOf(look)}: ${look.bottle.name} (${look.bottle.mark}) is ${stateWord(look)}: ${why}`;
      }),
      facts: { can: false },
    },
  );
}

/** Bottles by process and bath; only those of the sheet in use where it has any. */
function byBath(
  looks: readonly BottleLook[],
  solution: string | undefined,
  sheetInUse: string | undefined,
): readonly (readonly BottleLook[])[] {
  const mine = looks.filter(({ sheet }) => sheetInUse !== undefined && sheet?.id === sheetInUse);
  const groups = new Map<string, BottleLook[]>();
  for (const look of mine.length > 0 ? mine : looks) {
    const kind = kindOf(look);
    const asked =
      solution === undefined ||
      kind === solution ||
      look.bottle.bath === solution ||
      (isDeveloper(kind) && solution === "developer");
    if (!asked) continue;
    const group = groups.get(kind);
    if (group === undefined) groups.set(kind, [look]);
    else group.push(look);
  }
  return [...groups.values()];
}

/**
 * The first sound bottle with enough; where none has, the film shared out over the good bottles,
 * sound ones first. Else the best there is, with what it lacks.
 */
function share(
  group: readonly BottleLook[],
  film: readonly Film[],
  load: Units,
): readonly Choice[] {
  const sorted = group.toSorted(better);
  const judged = sorted.map((look): Choice => {
    const { unitsLeft } = look;
    const enough = unitsLeft === undefined ? undefined : unitsLeft >= load - 1e-6 && unitsLeft > 0;
    return { look, enough, ...(enough === true ? { takes: load } : {}) };
  });
  const enough = judged.filter((one) => one.enough === true);
  const alone = enough.find(({ look }) => look.doubts.length === 0);
  if (alone !== undefined) return [alone];
  const rolls = film.flatMap((one) =>
    Array.from({ length: one.count }, () => filmUnits([{ ...one, count: 1 }])),
  );
  const known = sorted.filter(({ unitsLeft }) => (unitsLeft ?? 0) > 0);
  const parted = (looks: readonly BottleLook[]): readonly Choice[] | undefined => {
    const shares = looks.length < 2 ? undefined : shareOut(rolls, looks.map(leftIn));
    return shares === undefined || rolls.length === 0
      ? undefined
      : looks.flatMap((look, at) => {
          const takes = shares[at] ?? 0;
          return takes > 0 ? [{ look, enough: true, takes, parted: true }] : [];
        });
  };
  const sound = parted(known.filter(({ doubts }) => doubts.length === 0));
  if (sound !== undefined) return sound;
  const [doubtful] = enough;
  if (doubtful !== undefined) return [doubtful];
  const all = parted(known);
  if (all !== undefined) return all;
  const open = judged.find((one) => one.enough === undefined);
  if (open !== undefined) return [open];
  return rolls.length === 0 ? judged.slice(0, 1) : judged;
}

const leftIn = ({ unitsLeft }: BottleLook): number => unitsLeft ?? 0;

const pickLine = ({ look, enough, takes, parted }: Choice): string => {
  const left =
    look.unitsLeft === undefined ? "capacity not known" : `${showUnits(look.unitsLeft)} left`;
  const short = enough === false ? ", TOO LITTLE" : "";
  const part = parted === true ? `, ${showUnits(units(takes ?? 0))} from it` : "";
  return `${kindOf(look)}: ${look.bottle.name} (${look.bottle.mark}), ${left}${short}${part}; ${stateWord(look)}, ${governsWords(look)}`;
};
