import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { ownTank } from "../src/commands/own-tank.ts";
import { soundsLike } from "../src/domain/chemistry/name-bottle.ts";
import { movements, showMovement } from "../src/domain/process/agitation.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import { answer, refuse } from "../src/reply/reply.ts";

export const tankMovementCommand = defineCommand({
  name: "tank movement",
  summary: "Tell how a tank is moved: turned over, by its stick, turning all the time, or a rack.",
  topic: "film",
  sentences: [
    "(tank {tank}|{tank} tank) (is|gets|uses|has|works|agitates|is agitated|is moved|moves|rolls|turns|runs|stands) [a|an] {movement} [tank|drum|agitation|processor|holder|one]",
    "agitate (tank {tank}|{tank} tank) {movement}",
  ],
  slots: { tank: "newTank" },
  examples: ["tank north is rotary", "tank south is turned over by hand", "tank east is a rack"],
  fields: z.object({
    tank: z.string().max(30, "Give the tank a name of one or two words."),
    movement: z.enum(movements),
  }),
  changes: true,
  values: {
    tank: "its name",
    agitation: "inversion, stick, rotary or rack",
    running: "true when a run of it is open, which keeps its plan",
  },
  run({ bench }, { tank: named, movement }) {
    const known = ownTank(bench, named);
    const name = known?.name ?? named.charAt(0).toUpperCase() + named.slice(1);
    const alike = Object.values(bench.tanks).find(
      (other) => other.name !== name && soundsLike(other.name, name),
    );
    if (alike !== undefined) {
      return refuse(
        "sounds-alike",
        `${name} sounds like ${alike.name}, which is a tank of this bench. Give it another name.`,
        { say: `${name} sounds like ${alike.name}. Another name?`, facts: { alike: alike.name } },
      );
    }
    const running = liveRuns(bench).some((run) => run.tank.toLowerCase() === name.toLowerCase());
    const tank = { ...(known ?? { name, layouts: [] }), agitation: movement };
    return {
      bench: { ...bench, tanks: { ...bench.tanks, [name.toLowerCase()]: tank } },
      reply: answer({
        title: `${name}: ${showMovement(movement)}`,
        lines: [
          ...(movement === "rotary" || movement === "rack"
            ? ["Most sheets give times for tanks turned over by hand; ask yours for this one."]
            : []),
          ...(running ? ["Its open run keeps its plan; the next start takes this."] : []),
        ],
        say: `${name} is noted.`,
        facts: { tank: name, agitation: movement, running },
      }),
    };
  },
});
