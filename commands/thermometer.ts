import { z } from "zod";
import { declined } from "../src/commands/declined.ts";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { driftValues } from "../src/commands/drift-words.ts";
import { said, worked } from "../src/commands/figures.ts";
import { type Heat, heatField, oneScale } from "../src/commands/heats.ts";
import { rereadLive } from "../src/commands/live-reread.ts";
import { showReread } from "../src/commands/reread-lines.ts";
import { recheck } from "../src/commands/set-daily.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { liveRuns } from "../src/domain/session/find-run.ts";
import {
  makeReference,
  thermometerOf,
  withoutThermometer,
  withThermometer,
} from "../src/domain/session/own-thermometers.ts";
import { readAnew } from "../src/domain/session/past-readings.ts";
import {
  explainThermometer,
  offsetOf,
  recheckDue,
  takeCheck,
} from "../src/domain/temperature/thermometer.ts";
import { dateOf, showDate } from "../src/domain/timing/clock-text.ts";
import { celsiusDifference } from "../src/domain/units/quantity.ts";
import { plain, showCelsius, showDifference } from "../src/domain/units/show.ts";
import { answer, refuse } from "../src/reply/reply.ts";

const it = "{thermometer} (thermometer|one)";
const beside = "[the] (reference|{other} (thermometer|one)|{other}) (reads|read|says|said|shows)";

/** Words that are no name for a thermometer. */
const unnamed: ReadonlySet<string> = new Set([
  "the",
  "my",
  "our",
  "a",
  "this",
  "that",
  "reference",
]);

export const thermometerCommand = defineCommand({
  name: "thermometer",
  summary: "Hold a thermometer against the reference: I correct every reading it gives.",
  topic: "run",
  sentences: [
    `[the|my|our] ${it} (reads|read|says|said|shows) {read} (where|when|while|and|against|but) ${beside} {reference}`,
    `[the|my|our] {thermometer} (reads|read|says|said|shows) {read} (where|when|while|against|but) [the] reference (reads|read|says|said|shows) {reference}`,
    `[i|we] [have] (checked|compared) [the] ${it} [it] (reads|read|says|said|shows) {read} (where|when|while|and|against) ${beside} {reference}`,
    `[i|we] [have] (check|checked|compare|compared) [the] ${it}`,
    `[the|my|our] ${it} (reads|read|is|was|showed|shows) {high} [too] high [at {at}]`,
    `[the|my|our] ${it} (reads|read|is|was|showed|shows) {low} [too] low [at {at}]`,
    `[the|my|our] ${it} (is|reads) (off|out|wrong) by {off} [at {at}]`,
    `[the|my|our] ${it} is [the|my|our] {role}`,
    "(new|add) thermometer [called|named] {thermometer}",
    `(forget|remove) [the] ({gone} thermometer|thermometer {gone})`,
  ],
  slots: {
    thermometer: "word",
    other: "word",
    gone: "word",
    role: "reference",
    read: "heat",
    reference: "heat",
    high: "heat",
    low: "heat",
    off: "heat",
    at: "heat",
  },
  examples: [
    "the red thermometer reads 38.4 where the reference reads 38.0",
    "the red thermometer is 0.3 high at 38",
    "the glass thermometer is the reference",
  ],
  fields: z.object({
    thermometer: z.string().max(30, "Say which thermometer in a word, like red.").optional(),
    gone: z.string().max(30).optional(),
    role: z.literal(true).optional(),
    /** The one it is held against; missing: the reference. */
    other: z.string().max(30).optional(),
    read: heatField("What does it read?").optional(),
    reference: heatField("What does the reference read, in the same bath?").optional(),
    /** How much too high or too low it reads, and where that was found. */
    high: heatField("How much too high?").optional(),
    low: heatField("How much too low?").optional(),
    /** How much it is off, either way. */
    off: heatField("How much is it off?").optional(),
    way: z.enum(["high", "low"]).optional(),
    at: heatField("At what temperature?").optional(),
  }),
  changes: true,
  values: {
    thermometer: "its name",
    reference: "true when all others are held against it",
    read_c: "what it read, °C",
    reference_c: "what the reference read, °C",
    offset_c: "what it reads too high, °C; negative where it reads too low",
    recheck_on: "ISO date of the next check, or null",
    runs: "readings that were out: run, tank, bath, at (ISO), read_c, now_c, out_c",
    tank: "the tank whose bath was read anew while film is in it",
    bath: "that bath",
    ...driftValues,
    forgotten: "name of the thermometer that was forgotten",
  },
  run({ bench, now }, fields) {
    const { thermometer: named, gone, role, other, off, way, at } = fields;
    const high = way === "high" ? off : fields.high;
    const low = way === "low" ? off : fields.low;
    if (gone !== undefined) {
      const known = thermometerOf(bench, gone);
      if (known === undefined) {
        return refuse("no-such-thermometer", `I know no ${gone} thermometer. Say thermometers.`);
      }
      return {
        bench: withoutThermometer(bench, gone),
        reply: answer({
          title: `The ${known.name} thermometer is forgotten. Say undo to have it back.`,
          say: `The ${known.name} thermometer is forgotten.`,
          facts: { forgotten: known.name },
        }),
      };
    }
    if (named === undefined || unnamed.has(named.toLowerCase())) {
      const { thermometer: _, ...wanted } = fields;
      return askFor(
        "thermometer",
        wanted,
        "thermometer",
        "Which one? Say a word for it, like red.",
      );
    }
    const name = named.toLowerCase();
    const known = thermometerOf(bench, name);
    if (role === true) {
      return {
        bench: makeReference(bench, name),
        reply: answer({
          title: `The ${name} thermometer is the reference: all others are held against it.`,
          say: `The ${name} thermometer is the reference.`,
          lines: [
            "Check others near the temperature you use: ice water proves nothing near 38 °C.",
          ],
          facts: { thermometer: name, reference: true, recheck_on: null },
        }),
      };
    }
    if (off !== undefined && way === undefined) {
      const asked = { thermometer: name, off, at };
      return askFor("thermometer", asked, "way", "Does it read too high or too low?", [
        { word: "too high", value: "high" },
        { word: "too low", value: "low" },
      ]);
    }
    const offBy = high ?? low;
    if (offBy !== undefined && at === undefined) {
      const asked = { thermometer: name, high, low };
      return askFor("thermometer", asked, "at", "At about what temperature was that?");
    }
    const { read, reference } =
      offBy === undefined || at === undefined
        ? fields
        : besideReference(at, offBy, high === undefined ? -1 : 1, bench.degrees);
    if (read === undefined || reference === undefined) {
      const asked = { thermometer: name, read, reference, other };
      return read === undefined
        ? askFor("thermometer", asked, "read", `What does the ${name} thermometer read?`)
        : askFor("thermometer", asked, "reference", "And the reference, in the same bath?");
    }
    if (known?.isReference === true) {
      return refuse(
        "is-the-reference",
        `The ${name} thermometer is the reference. Say which other one is to be held against it.`,
        { say: "That one is the reference itself." },
      );
    }
    const held = other === undefined ? undefined : thermometerOf(bench, other);
    if (other !== undefined && held?.isReference !== true) {
      return refuse(
        "not-the-reference",
        `The ${other} thermometer is not the reference. Say the ${other} thermometer is the reference, then read both again.`,
        { say: `The ${other} thermometer is not the reference.` },
      );
    }
    const scaled = oneScale(reference, [read], bench.degrees);
    if ("reply" in scaled) return scaled.reply;
    const taken = takeCheck(now, scaled.of(read), scaled.of(reference));
    if (!taken.ok) return declined(taken.error, explainThermometer(taken.error));
    const before = known ?? { name, checks: [] };
    const anew = showReread(bench, readAnew(bench, { ...before, name }, taken.value));
    const after = { ...before, checks: [...before.checks, taken.value].slice(-20) };
    const due = recheckDue(after);
    const dueOn = due === undefined ? undefined : dateOf(due, bench.zone);
    const offset = offsetOf(taken.value);
    const size = showDifference(celsiusDifference(Math.abs(offset)));
    const much =
      Math.abs(offset) < 0.005 ? "reads true" : `reads ${size} too ${offset > 0 ? "high" : "low"}`;
    const trusted = bench.suspects?.some((one) => one.kind === "thermometer" && one.name === name);
    return rereadLive(
      recheck(withThermometer(bench, name, after), now),
      { ...before, name },
      taken.value,
      answer({
        title: `The ${name} thermometer ${much} at ${showCelsius(taken.value.read)}. I correct its readings from now on.`,
        say: `${name} ${much}. I correct it.`,
        lines: [
          ...(trusted === true ? ["Its offset is known now: it is no longer marked suspect."] : []),
          ...(dueOn === undefined ? [] : [`Check it again by ${showDate(dueOn)}.`]),
          ...(scaled.assumed === undefined ? [] : [scaled.assumed]),
          ...anew.lines,
          ...unnamedLines(bench),
        ],
        facts: { thermometer: name, reference: false, recheck_on: dueOn ?? null },
        figures: {
          read_c: said(taken.value.read),
          reference_c: said(taken.value.reference),
          offset_c: worked(offset, "its reading less the reference's"),
          runs: { value: anew.rows, origin: { kind: "own log" } },
        },
        working: [
          `Offset: ${plain(taken.value.read, 2)} - ${plain(taken.value.reference, 2)} = ${plain(offset, 2)} °C.`,
        ],
      }),
      now,
    );
  },
});

/** "0.3 high at 38": what both read in a bath the reference calls 38. */
function besideReference(
  at: Heat,
  by: Heat,
  sign: 1 | -1,
  habit: "C" | "F" | undefined,
): { readonly read: Heat; readonly reference: Heat } {
  const scale = at.scale ?? by.scale ?? habit;
  const reference = scale === undefined ? at : { ...at, scale };
  const inScale = (by.scale ?? scale) === scale ? 1 : by.scale === "F" ? 5 / 9 : 9 / 5;
  return { reference, read: { ...reference, degrees: at.degrees + sign * by.degrees * inScale } };
}

/** Nobody knows whose they are: they are not corrected, and that is said while they still matter. */
function unnamedLines(bench: Bench): readonly string[] {
  const unnamed = liveRuns(bench).flatMap(({ readings }) =>
    readings.filter(({ thermometer }) => thermometer === undefined),
  ).length;
  if (unnamed === 0) return [];
  return [
    `${unnamed === 1 ? "1 reading" : `${unnamed} readings`} of open runs named no thermometer and stay as they are.`,
  ];
}
