import { z } from "zod";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { ownTank, tankJson } from "../src/commands/own-tank.ts";
import { capital } from "../src/domain/capital.ts";
import { soundsLike } from "../src/domain/chemistry/name-bottle.ts";
import { filmFormats } from "../src/domain/film/load.ts";
import { showTank, type Tank } from "../src/domain/film/tank.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { millilitres } from "../src/domain/units/quantity.ts";
import { showVolume } from "../src/domain/units/show.ts";
import { answer, refuse } from "../src/reply/reply.ts";

const COUNT = "A tank takes 1 to 12 reels. Say it like two 35 mm reels of 300 ml each.";
const ROLLS = "A reel takes 1 to 8 rolls or sheets.";
const VOLUME = "A reel needs between 50 mL and 5 L. Say it like 300 ml each.";

const reels = z.object({
  count: z.number().int(COUNT).min(1, COUNT).max(12, COUNT),
  takes: z.array(z.enum(filmFormats)),
  rolls: z.number().int(ROLLS).min(1, ROLLS).max(8, ROLLS),
  ml: z.number().min(50, VOLUME).max(60_000, VOLUME).optional(),
  each: z.literal(true).optional(),
});

const layouts = z.array(z.array(reels).min(1).max(12), "Which reels does it take?").min(1).max(6);
type Layouts = z.output<typeof layouts>;

export const tankCommand = defineCommand({
  name: "tank",
  summary: "Tell a tank's reels and the solution each of them needs.",
  topic: "film",
  sentences: [
    "(tank {tank}|{tank} tank) (has|takes|holds|with|is for|can take|needs|is) {reels}",
    "(new|add) tank [called|named] {tank} [(with|has|for)] {reels}",
    "tank {tank} {reels}",
    "(new|add) tank [called|named] {tank}",
    "(new|add) [a] tank",
    "(forget|remove|delete|drop) [the] tank {gone}",
  ],
  slots: { tank: "newTank", ml: "volume", gone: "newTank" },
  examples: [
    "tank north has two 35 mm reels of 300 ml each",
    "tank south takes two 35 mm reels of 300 ml each or one 120 reel of 500 ml",
    "forget tank south",
  ],
  fields: z.object({
    tank: z.string().max(30, "Give the tank a name of one or two words.").optional(),
    gone: z.string().optional(),
    reels: layouts.optional(),
    /** The answer to "how much does a reel need". */
    ml: z.number().min(50, VOLUME).max(60_000, VOLUME).optional(),
  }),
  changes: true,
  values: {
    tank: "its name",
    layouts: "the ways it is filled, each a list of reels: takes, rolls, ml",
    forgotten: "name of the tank that was forgotten",
  },
  run({ bench }, { tank: named, gone, reels: said, ml }) {
    if (gone !== undefined) {
      const key = gone.toLowerCase();
      const heat = Object.hasOwn(bench.tankHeat, key);
      const tank = ownTank(bench, gone) ?? (heat ? { name: capital(gone) } : undefined);
      if (tank === undefined) return noTank(gone);
      const busy = liveRuns(bench).some((run) => run.tank.toLowerCase() === key);
      if (busy) return refuse("in-use", `${tank.name} has a run open. Finish or stop it first.`);
      const { [key]: _, ...tanks } = bench.tanks;
      const { [key]: __, ...tankHeat } = bench.tankHeat;
      return {
        bench: { ...bench, tanks, tankHeat },
        reply: answer({
          title: `${tank.name} is forgotten${heat ? ", and the heat it takes" : ""}. Say undo to have it back.`,
          say: `${tank.name} is forgotten.`,
          facts: { forgotten: tank.name },
        }),
      };
    }
    if (named === undefined)
      return askFor("tank", { reels: said }, "tank", "Which tank? Its name.");
    const name = capital(named);
    if (said === undefined) {
      return askFor("tank", { tank: named }, "reels", `Which reels does ${name} take?`);
    }
    const alike = Object.values(bench.tanks).find(
      (other) => other.name.toLowerCase() !== name.toLowerCase() && soundsLike(other.name, name),
    );
    if (alike !== undefined) {
      return refuse(
        "sounds-alike",
        `${name} sounds like ${alike.name}, which is a tank of this bench. Give it another name.`,
        { say: `${name} sounds like ${alike.name}. Another name?`, facts: { alike: alike.name } },
      );
    }
    if (ml === undefined && said.flat().some((one) => one.ml === undefined)) {
      return askFor(
        "tank",
        { tank: named, reels: said },
        "ml",
        "How much solution does a reel need? It stands under the tank, or on its sheet.",
      );
    }
    const filled = said.map((row) => row.map((one) => ({ ...one, ml: one.ml ?? ml ?? 0 })));
    const shared = filled.flat().find(({ count, each }) => count > 1 && each === undefined);
    if (shared !== undefined && ml === undefined) {
      const mine = showVolume(millilitres(shared.ml));
      return askFor("tank", { tank: named }, "reels", `${mine} for each reel, or in all?`, [
        { word: "each", value: asEach(filled, 1) },
        { word: "in all", value: asEach(filled, undefined) },
      ]);
    }
    if (filled.flat().some((one) => one.ml > 5000)) return refuse("out-of-range", VOLUME);
    const known = ownTank(bench, name)?.agitation;
    const tank: Tank = {
      name,
      ...(known === undefined ? {} : { agitation: known }),
      layouts: filled.map((row) =>
        row.flatMap(({ count, takes, rolls, ml: each }) =>
          Array.from({ length: count }, () => ({ takes, rolls, ml: millilitres(each) })),
        ),
      ),
    };
    if (tank.layouts.some((row) => row.length > 12)) return refuse("out-of-range", COUNT);
    return {
      bench: { ...bench, tanks: { ...bench.tanks, [name.toLowerCase()]: tank } },
      reply: answer({
        title: `${name}: ${showTank(tank)}`,
        lines: ["I count solution by the reels that hold film, never by the tank."],
        say: `${name} is noted.`,
        facts: { tank: name },
        figures: { layouts: { value: layoutsJson(tank), origin: { kind: "told" } } },
      }),
    };
  },
});

const layoutsJson = (tank: Tank) => (tankJson(tank) as { layouts: never }).layouts;

/** The reels again with their volume settled: as said for each, or shared out. */
const asEach = (
  rows: readonly (readonly (Layouts[number][number] & { ml: number })[])[],
  by: 1 | undefined,
) =>
  rows.map((row) =>
    row.map((one) => ({
      ...one,
      takes: [...one.takes],
      ml: one.each === true || by === 1 ? one.ml : one.ml / one.count,
      each: true as const,
    })),
  );

const noTank = (name: string) =>
  refuse(
    "no-such-tank",
    `I know no tank called ${name.slice(0, 30)}. Say tanks for those I know.`,
    {
      say: "I know no such tank. Say tanks.",
    },
  );
