import { z } from "zod";
import { filmFormats } from "../film/load.ts";
import { originSchema, senses } from "../process/sheet.ts";
import { deeds } from "../session/run.ts";
import { clearParts, edgeNumbers, places, rebates, rgbSchema } from "./first-look.ts";

const s = z.number();
const celsius = z.number();
const origin = z.strictObject(originSchema.shape);

const readingSchema = z.strictObject({
  into_s: s.describe("from the start of its bath, s; negative before the pour"),
  temp_c: celsius.describe("what it is taken for, °C: corrected where the offset is known"),
  read_c: celsius.describe("as the thermometer showed it, °C"),
  thermometer: z.string().nullable().describe("which one, where it was said"),
  unverified: z.string().nullable().describe("why it is not verified, or null where it is"),
  verdict: z.enum(["inside", "above", "below", "no band"]),
  asked: z.enum(["start", "end"]).nullable().describe("told after the run, of this moment"),
});

const beatsSchema = z.strictObject({
  planned_s: z.array(s).describe("beginnings of the beats as planned, s into the bath"),
  given_s: z.array(s).describe("those that were told in time"),
  silent_s: z.array(s).describe("those that fell into a hold"),
  late_s: z.array(s).describe("those that were told late"),
  each_s: s.nullable().describe("length of a later beat, s"),
  first_s: s.describe("length of the first movement, s"),
});

const stageSchema = z.strictObject({
  bath: z.string(),
  kind: z.string(),
  sense: z.enum(senses),
  planned_s: s.describe("time as planned, before any drift moved it, s"),
  moved_s: s.nullable().describe("time that drift in the bath moved it to, s"),
  real_s: s.nullable().describe("from full to out, s; null where it was not poured or is still in"),
  plus_minus_s: s.describe("uncertainty of the start where it was only assumed, s"),
  out_by_clock: z.boolean().describe("true when nobody said out: the planned end stands for it"),
  skipped: z.boolean(),
  plan_from_s: s.describe("planned start, s from the first pour"),
  plan_to_s: s.describe("planned end, s from the first pour"),
  real_from_s: s.nullable().describe("real start, s from the first pour"),
  real_to_s: s.nullable().describe("real end, s from the first pour"),
  drain_s: s.describe("pouring out, inside the time, s"),
  aim_c: celsius.nullable(),
  tolerance_c: celsius.nullable().describe("half width of the band, °C"),
  readings: z.array(readingSchema),
  beats: beatsSchema.nullable().describe("null where the bath is not agitated"),
  corrections: z.array(
    z.strictObject({
      kind: z.enum(["re-use", "push", "temperature", "drift"]),
      by_s: s,
      how: z.string(),
    }),
  ),
  bottle: z.string().nullable(),
  deviations: z.array(z.string()),
});
export type SessionStage = z.infer<typeof stageSchema>;

const ruleSchema = z.strictObject({
  bath: z.string(),
  of: z.enum(["time", "temperature", "agitation", "pour-out", "vent"]),
  origin,
});

const bottleSchema = z.strictObject({
  bottle: z.string(),
  mark: z.string(),
  bath: z.string(),
  before_units: z.number(),
  after_units: z.number(),
  mixed_on: z.string().describe("ISO date"),
  age_days: z.number().int(),
});

const answersSchema = z.strictObject({
  developer_start_c: celsius.nullable(),
  developer_end_c: celsius.nullable(),
  different: z.enum(["nothing", "something", "not answered"]),
});

const firstLookSchema = z.strictObject({
  on: z.string().describe("ISO date"),
  edge_numbers: z.enum(edgeNumbers).nullable(),
  clear_parts: z.enum(clearParts).nullable(),
  rebate: z.enum(rebates).nullable(),
  same_on_all: z.boolean().nullable(),
  place: z.enum(places).nullable(),
  edge_rgb: rgbSchema.nullable(),
  grey_rgb: rgbSchema.nullable(),
  hints: z.array(z.strictObject({ text: z.string(), source: z.string().nullable() })),
});

/** A rule that made the lesson, so that it can be looked up and argued with. */
export const lessonRules = [
  "nothing-amiss",
  "still-running",
  "rehearsed",
  "skipped-bath",
  "short-minimum",
  "developer-temperature",
  "developer-time",
  "given-up",
  "other-temperature",
  "other-time",
  "faint-edge",
  "thermometer-unknown",
  "developer-not-read",
  "words-not-heard",
  "beats-missed",
] as const;

const lessonSchema = z.strictObject({
  rule: z.enum(lessonRules),
  text: z.string(),
  because: z.array(z.string()),
});
export type Lesson = z.infer<typeof lessonSchema>;

/** All of a session that may be shown to anybody. Times count from the first pour, in s. */
const shown = {
  schema: z.literal("wetside-session"),
  version: z.literal(1),
  run: z.string(),
  tank: z.string(),
  title: z.string(),
  process: z.string(),
  date: z.string().describe("ISO date of the first pour where the bench stands"),
  clock: z.string().describe("HH:MM of the first pour where the bench stands"),
  state: z.enum(["running", "done", "stopped", "by the clock"]),
  rehearsal_speed: z.number().nullable(),
  nothing_in: z.boolean().describe("true when the film never went in, so that nothing was counted"),
  sheet: z.strictObject({ name: z.string(), invented: z.boolean() }),
  rules: z.array(ruleSchema),
  film: z.array(
    z.strictObject({
      format: z.enum(filmFormats),
      count: z.number().int().positive(),
      wide_in: z.number().optional(),
      high_in: z.number().optional(),
    }),
  ),
  format_assumed: z.boolean(),
  units: z.number().describe("film in units of 80 sq in"),
  push: z.number().describe("stops; negative for a pull"),
  stages: z.array(stageSchema).min(1),
  plan_to_s: s.describe("planned end of the last bath, s from the first pour"),
  bottles: z.array(bottleSchema),
  count_confirmed: z.boolean(),
  odd: z.array(z.string()).describe("what the bench itself noticed"),
  deviations: z.array(z.string()),
  answers: answersSchema,
  first_look: firstLookSchema.nullable(),
  lesson: lessonSchema,
};

/** What stays on the bench: words of people, their names, places, and instants that tell a zone. */
const privateSchema = z.strictObject({
  people: z.array(z.strictObject({ name: z.string(), did: z.array(z.enum(deeds)) })),
  mixed_by: z.array(z.strictObject({ bottle: z.string(), by: z.string() })),
  names: z.array(z.string()).describe("everybody the bench has heard of"),
  places: z.array(z.string()).describe("where bottles stand"),
  zone: z.string().describe("IANA zone of the bench"),
  began_at: z.string().describe("ISO instant of the first pour"),
  ended_at: z.string().nullable(),
  notes: z.array(z.strictObject({ at_s: s, text: z.string() })),
  different: z.string().nullable(),
  stopped_because: z.string().nullable(),
  rolls: z.array(
    z.strictObject({
      number: z.number().int(),
      name: z.string().nullable(),
      stock: z.string().nullable(),
      note: z.string().nullable(),
    }),
  ),
});

/** A session as it may leave the bench: there is no place in it for anything private. */
export const sharedSessionSchema = z.strictObject(shown);
export type SharedSession = z.infer<typeof sharedSessionSchema>;

/** Everything a bench knows of one session: what may be shown, and apart from it what is private. */
export const sessionSchema = z.strictObject({ ...shown, private: privateSchema });
export type SessionSummary = z.infer<typeof sessionSchema>;
