import { z } from "zod";
import { defineCommand } from "../src/commands/define-command.ts";
import { explainRehearsal, FASTEST, SLOWEST } from "../src/domain/session/rehearsal.ts";
import { startCommand } from "./start.ts";

const SPEED = explainRehearsal({ kind: "speed-out-of-range", speed: 0 });

const rehearse = "(rehearse|practise|practice|try out|dry run|dry run of|dry run for|run dry)";
const rehearsal =
  "[let us] [(start|begin|do|have|a)] [a] (rehearsal|dry run|practice run|trial run) [of|for]";
const more =
  "[with|for] {film} / [in] tank {tank} / [in] [the] {tank} tank / {speed} / at {temperature} / with water";

export const rehearseCommand = defineCommand({
  name: "rehearse",
  summary: "The same run with water and a scrap roll, at real speed or faster. Nothing is counted.",
  topic: "run",
  sentences: [
    `${rehearse} {solution} [stage|bath] <for {duration} / ${more} / {duration}>`,
    `${rehearse} {sheet} [sheet|process] <${more}>`,
    `${rehearsal} {solution} [stage|bath] <for {duration} / ${more} / {duration}>`,
    `${rehearsal} {sheet} [sheet|process] <${more}>`,
    `${rehearse} [it|the process|the run] <${more}>`,
    `${rehearsal} <${more}>`,
  ],
  slots: { tank: "newTank" },
  examples: [
    "rehearse colour negative",
    "rehearse developer five times faster",
    "dry run of colour negative tank north 10 times as fast",
  ],
  fields: z.object({
    solution: z.string().optional(),
    sheet: z.string().optional(),
    tank: z.string().max(30, "Give the tank a name of one or two words.").optional(),
    duration: z
      .number()
      .min(11, "A stage needs more than 10 seconds: the last 10 are for pouring out.")
      .max(86_400, "A stage of more than a day is no stage. Give minutes and seconds.")
      .optional(),
    temperature: z
      .number()
      .min(0, "Developing temperatures lie between 0 and 60 °C. Give one of those.")
      .max(60, "Developing temperatures lie between 0 and 60 °C. Give one of those.")
      .optional(),
    /** Said, and left out: a scrap roll goes in, and nothing is counted. */
    film: z.unknown().optional(),
    /** How many times as fast. */
    speed: z.number().min(SLOWEST, SPEED).max(FASTEST, SPEED).default(SLOWEST),
  }),
  changes: true,
  values: startCommand.values,
  run: (at, { speed, film: _, ...wanted }) =>
    startCommand.handle(at, { ...wanted, rehearsal: { speed } }),
});
