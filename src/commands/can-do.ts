import { z } from "zod";
import { better, kindOf } from "../domain/chemistry/capacity-left.ts";
import type { BottleLook } from "../domain/chemistry/look.ts";
import { filmUnits, showFilm } from "../domain/film/load.ts";
import { isDeveloper } from "../domain/process/sheet.ts";
import type { Units } from "../domain/units/quantity.ts";
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
  can: "true when every bath has a sound bottle with enough left",
  film: "formats and counts",
  units: "that film, units of 80 sq in",
  bottles: "one entry a bath: bath, process, bottle, units_left, enough (null when unknown), state",
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
  const groups = byBath(looks, wanted.solution, bench.sheetInUse);
  if (groups.length === 0) {
    return refuse(
      "no-bottle",
      wanted.solution === undefined
        ? "There is no bottle to use. Say bottle developer 1 litre mixed today."
        : `There is no bottle of ${wanted.solution}. Say bottle ${wanted.solution} 1 litre mixed today.`,
      { say: "There is no such bottle." },
    );
  }
  const picks = groups.map((group) => pick(group, load));
  const rows: Json[] = picks.map(({ look, enough }) => ({
    bath: kindOf(look),
    process: look.sheet?.process ?? null,
    bottle: look.bottle.name,
    units_left: look.unitsLeft ?? null,
    enough: enough ?? null,
    state: look.state,
  }));
  const short = picks.filter(({ enough, look }) => enough === false || badState(look));
  const open = picks.filter(({ enough }) => enough === undefined);
  const can = short.length === 0 && open.length === 0;
  const lines = [
    ...(film.length === 0
      ? []
      : [
          `Film: ${showFilm(film)}, ${showUnits(load)}${assumed.length > 0 ? ` (${assumed.join("; ")})` : ""}.`,
        ]),
    ...picks.map(pickLine),
    ...picks.flatMap(({ look }) =>
      look.doubts.length === 0
        ? []
        : [`Clip test ${look.bottle.name} first: ${look.doubts.join("; ")}.`],
    ),
  ];
  const shared = {
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
    working: ["The bottle whose limit comes first is used first, if it is sound and has enough."],
  };
  const [first] = picks;
  if (first !== undefined && (wanted.solution !== undefined || film.length === 0)) {
    const name = first.look.bottle.name;
    return answer({
      ...shared,
      title: `${kindOf(first.look)}: take ${name}, the ${first.look.bottle.mark}.`,
      say: `Take ${name}, the ${first.look.bottle.mark}.`,
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
    ...shared,
    title,
    say: can
      ? "Yes. Each bath has enough."
      : short.length > 0
        ? `Not as it stands: see ${short[0]?.look.bottle.name}.`
        : "I cannot tell; a capacity is not known.",
    facts: { can, film: filmJson(film) },
  });
}

type Choice = { readonly look: BottleLook; readonly enough: boolean | undefined };

const badState = ({ state }: BottleLook): boolean => state === "suspect" || state === "past limit";

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

/** The first sound bottle with enough; else the best there is, with what it lacks. */
function pick(group: readonly BottleLook[], load: Units): Choice {
  const sorted = group.toSorted(better);
  const judged = sorted.map((look): Choice => {
    const { unitsLeft } = look;
    return {
      look,
      enough: unitsLeft === undefined ? undefined : unitsLeft >= load - 1e-6 && unitsLeft > 0,
    };
  });
  const best =
    judged.find(
      ({ look, enough }) => enough === true && !badState(look) && look.doubts.length === 0,
    ) ??
    judged.find(({ look, enough }) => enough === true && !badState(look)) ??
    judged.find(({ look }) => !badState(look)) ??
    judged[0];
  if (best === undefined) throw new Error("a group of bottles is empty");
  return best;
}

const pickLine = ({ look, enough }: Choice): string => {
  const left =
    look.unitsLeft === undefined ? "capacity not known" : `${showUnits(look.unitsLeft)} left`;
  const short = enough === false ? ", TOO LITTLE" : "";
  return `${kindOf(look)}: ${look.bottle.name} (${look.bottle.mark}), ${left}${short}; ${stateWord(look)}, ${governsWords(look)}`;
};
