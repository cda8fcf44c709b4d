import { z } from "zod";
import { askFor, defineCommand } from "../src/commands/define-command.ts";
import { dryingOf, ownOrHabit, setupOf } from "../src/commands/evening-times.ts";
import { moveZone } from "../src/domain/reminders/move-zone.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import { servingOf } from "../src/domain/session/keep-apart.ts";
import { JUMP_LIMIT } from "../src/domain/temperature/jump.ts";
import { clockTime } from "../src/domain/timing/clock-text.ts";
import { type Serving, servings } from "../src/domain/timing/stagger.ts";
import { celsiusDifference, seconds } from "../src/domain/units/quantity.ts";
import { showDifference, showDuration } from "../src/domain/units/show.ts";
import { isZone } from "../src/domain/units/zone.ts";
import { answer, refuse } from "../src/reply/reply.ts";

/** "europe/lisbon" as the zone database spells it. */
const zoneCase = (zone: string): string =>
  zone
    .trim()
    .replace(/ /g, "_")
    .split("/")
    .map((piece) =>
      piece.replace(
        /(^|[_-])([a-z])/g,
        (_, head: string, letter: string) => head + letter.toUpperCase(),
      ),
    )
    .join("/");

const jumpOf = (bench: Bench) => bench.jumpLimit ?? JUMP_LIMIT.value;

const servingWords: Readonly<Record<Serving, string>> = {
  "one for all": "one person for all tanks; starts are put off so that no two pours meet",
  "one per tank": "one person per tank; starts are not put off",
};

const settingsOf = (bench: Bench): readonly string[] => [
  `zone: ${bench.zone}`,
  `ounces and quarts: ${bench.country === undefined ? "asked when first needed" : bench.country === "us" ? "US" : "Imperial"}`,
  `degrees without a unit: ${bench.degrees === undefined ? "by what is plausible, else asked" : `°${bench.degrees}`}`,
  `lead to the first pour: ${showDuration(seconds(bench.lead))}`,
  `pour window: ${showDuration(seconds(bench.window))}`,
  `hands: ${servingWords[servingOf(bench)]}`,
  `drying of reels between loads: ${showDuration(dryingOf(bench))}`,
  `jump from bath to bath, warned beyond: ${showDifference(jumpOf(bench))}`,
  `setting up a load: ${showDuration(setupOf(bench))}`,
  `mode: ${bench.mode}`,
  `sheet in use: ${bench.sheetInUse ?? "none; the shipped ones answer and say so"}`,
];

const settingsValues = {
  zone: "IANA zone",
  country: "us, imperial or null",
  degrees: "C, F or null",
  lead_s: "from the plan to the first pour, s",
  window_s: "pour window, s",
  serving: "one for all or one per tank: whose hands serve the tanks",
  drying_s: "drying of reels between loads, s",
  jump_c: "from bath to bath a plan warns of jumps beyond, °C",
  setup_s: "setting up one load, s",
  mode: "bench, wet or dark",
};

const reply = (bench: Bench, title: string, say: string) =>
  answer({
    title,
    lines: settingsOf(bench),
    say,
    facts: {
      zone: bench.zone,
      country: bench.country ?? null,
      degrees: bench.degrees ?? null,
      mode: bench.mode,
      serving: servingOf(bench),
    },
    figures: {
      lead_s: { value: bench.lead, origin: { kind: "told" } },
      window_s: { value: bench.window, origin: { kind: "told" } },
      drying_s: { value: dryingOf(bench), origin: ownOrHabit(bench.reelDrying) },
      jump_c: {
        value: jumpOf(bench),
        origin: bench.jumpLimit === undefined ? JUMP_LIMIT.origin : { kind: "told" },
      },
      setup_s: { value: setupOf(bench), origin: ownOrHabit(bench.loadSetup) },
    },
  });

const DRYING = "Reels dry between 0 and 24 hours. Say set drying 30 minutes.";
const JUMP = "A limit for jumps lies between 0.5 and 20 °C. Say set jump limit 3 degrees C.";
const SETUP = "Setting up takes between 0 and 2 hours. Say set setup 15 minutes.";

export const settingsCommand = defineCommand({
  name: "settings",
  summary: "How this bench is set: zone, ounces, degrees, lead.",
  topic: "bench",
  sentences: ["[show] [the] (settings|set up|setup|preferences)"],
  examples: ["settings"],
  fields: z.object({}),
  changes: false,
  values: settingsValues,
  run: ({ bench }) => reply(bench, "Settings", "The settings are on the screen."),
});

export const setCommand = defineCommand({
  name: "set",
  summary: "Change a setting: zone, ounces, degrees, lead.",
  topic: "bench",
  sentences: [
    "set [the] [time] zone [to] {zone}",
    "(set|use) [the] (units|ounces|quarts|ounce) [to|are|in] {country}",
    "[set|use] {country} (ounces|units|quarts|quart|measures|measure)",
    "(we|i) use {country} (ounces|units|quarts|measures)",
    "(set|use) [the] degrees [to|in] {degrees}",
    "(use|we use) {degrees}",
    "set [the] lead [to] {lead}",
    "set [the] [pour] window [to] {window}",
    "[set|use|there is|we are|i am] [the] [hands] [to] {serving}",
    "set [the] [reel] (drying|drying time|drying of reels) [to] {drying}",
    "set [the] (jump limit|limit of jumps|jump) [to] {jump}",
    "set [the] (setup|setting up|setup time|loading time) [of a load] [to] {setup}",
  ],
  slots: {
    zone: "text",
    lead: "duration",
    window: "duration",
    drying: "duration",
    setup: "duration",
    jump: "difference",
  },
  examples: ["set zone Europe/Lisbon", "use US ounces", "set lead 1 minute"],
  fields: z.object({
    zone: z.string().optional(),
    country: z.enum(["us", "imperial"]).optional(),
    degrees: z.enum(["C", "F"]).optional(),
    lead: z
      .number()
      .min(0, "A lead lies between 0 seconds and 1 hour. Say set lead 30 seconds.")
      .max(3600, "A lead lies between 0 seconds and 1 hour. Say set lead 30 seconds.")
      .optional(),
    window: z
      .number()
      .min(4, "A pour window lies between 4 seconds and 2 minutes. Say set window 20 seconds.")
      .max(120, "A pour window lies between 4 seconds and 2 minutes. Say set window 20 seconds.")
      .optional(),
    drying: z.number().min(0, DRYING).max(86_400, DRYING).optional(),
    serving: z.enum(servings).optional(),
    setup: z.number().min(0, SETUP).max(7200, SETUP).optional(),
    jump: z.number().min(0.5, JUMP).max(20, JUMP).optional(),
  }),
  // It moves everybody's reminders and the daily message.
  ownerFields: ["zone"],
  changes: true,
  values: settingsValues,
  run({ bench, now }, { zone, country, degrees, lead, window, drying, setup, jump, serving }) {
    if (zone !== undefined) {
      const spelt = isZone(zone) ? zone : zoneCase(zone);
      const name = isZone(spelt)
        ? Temporal.Instant.fromEpochMilliseconds(now).toZonedDateTimeISO(spelt).timeZoneId
        : undefined;
      if (name === undefined) {
        return refuse(
          "no-such-zone",
          `"${zone.slice(0, 40)}" is no zone I know. Give one like Europe/Lisbon.`,
          {
            say: "I do not know that zone.",
          },
        );
      }
      const moved = moveZone(bench, name);
      return {
        bench: moved,
        reply: reply(
          moved,
          `Zone ${name}; it is ${clockTime(now, name)} there.`,
          `Zone set. It is ${clockTime(now, name)} there.`,
        ),
      };
    }
    const set = {
      ...bench,
      ...(country === undefined ? {} : { country }),
      ...(degrees === undefined ? {} : { degrees }),
      ...(lead === undefined ? {} : { lead }),
      ...(window === undefined ? {} : { window }),
      ...(drying === undefined ? {} : { reelDrying: drying }),
      ...(setup === undefined ? {} : { loadSetup: setup }),
      ...(serving === undefined ? {} : { serving }),
      ...(jump === undefined ? {} : { jumpLimit: celsiusDifference(jump) }),
    };
    if (
      country === undefined &&
      degrees === undefined &&
      lead === undefined &&
      window === undefined &&
      drying === undefined &&
      setup === undefined &&
      jump === undefined &&
      serving === undefined
    ) {
      return askFor("set", {}, "zone", "Set what? The zone, for example: Europe/Lisbon.");
    }
    return { bench: set, reply: reply(set, "Set.", "Set.") };
  },
});
