import { z } from "zod";
import { askFor, confirm, defineCommand } from "../src/commands/define-command.ts";
import { calledThing, takenLines } from "../src/commands/handover-lines.ts";
import type { Bench } from "../src/domain/session/bench.ts";
import {
  isSame,
  signIn,
  signOut,
  type Taken,
  type Thing,
  takenThings,
  thingsCalled,
} from "../src/domain/session/in-use.ts";
import { clockMinute, isoInstant } from "../src/domain/timing/clock-text.ts";
import { answer, type Reply, refuse } from "../src/reply/reply.ts";

const thing = z.string("Which bottle, tank or thermometer?").max(80, "Say its name alone.");
const values = {
  things: "names of what it is about, with their kind",
  by: "who has it",
  held_by: "who had it before",
};

/** The one thing a name means, or what to say where it means none or several. */
function meant(
  bench: Bench,
  command: string,
  text: string,
): { readonly thing: Thing } | { readonly reply: Reply } {
  const found = thingsCalled(bench, text);
  const [only] = found;
  if (only === undefined) {
    return {
      reply: refuse("no-such-thing", `I know no bottle, tank or thermometer called ${text}.`, {
        say: `I know nothing called ${text.split(" ").slice(0, 4).join(" ")}.`,
      }),
    };
  }
  if (found.length === 1) return { thing: only };
  const options = found.map((one) => ({ word: one.kind, value: `${one.kind} ${one.name}` }));
  return { reply: askFor(command, {}, "thing", `Which ${only.name}?`, options) };
}

export const signInCommand = defineCommand({
  name: "sign in",
  summary: "Take a bottle, tank or thermometer for yourself, so that others see it.",
  topic: "bench",
  sentences: [
    "sign in [with|for|to|on] {thing}",
    "(i am|we are) (using|taking) {thing}",
    "(i take|i have taken|i use) {thing}",
    "sign in",
  ],
  slots: { thing: "text", sure: "yes" },
  examples: ["sign in Acorn", "sign in the red thermometer"],
  fields: z.object({ thing, sure: z.boolean().optional() }),
  changes: true,
  values,
  run({ bench, now, who }, { thing: text, sure }) {
    const found = meant(bench, "sign in", text);
    if ("reply" in found) return found.reply;
    const holder = takenThings(bench).find((one) => isSame(one, found.thing));
    if (sure === false) return answer({ title: "It stays with them.", say: "It stays with them." });
    if (holder !== undefined && holder.by !== who && sure === undefined) {
      return confirm(
        "sign in",
        { thing: text },
        "sure",
        `${heldWords(bench, holder)} Take it over?`,
        {
          say: `${holder.by} has it. Take it over?`.split(" ").slice(0, 12).join(" "),
          facts: { held_by: holder.by, things: [calledThing(found.thing)] },
        },
      );
    }
    return {
      bench: signIn(bench, found.thing, who, now),
      reply: answer({
        title: `${calledThing(found.thing)} is with ${who} now.`,
        lines: ["Say sign out when it is free again."],
        say: "Signed in.",
        facts: { things: [calledThing(found.thing)], by: who },
      }),
    };
  },
});

const heldWords = (bench: Bench, { by, since, run, ...one }: Taken): string =>
  `${by} has ${calledThing(one)} since ${clockMinute(since, bench.zone)}${run === undefined ? "" : `, for the run of ${run}`}.`;

export const signOutCommand = defineCommand({
  name: "sign out",
  summary: "Give back what you signed in: one thing, or all of yours.",
  topic: "bench",
  sentences: [
    "sign out [of|from|with] {thing}",
    "sign out [of everything|everything|all]",
    "give back {thing}",
    "{thing} is free [again]",
  ],
  slots: { thing: "text" },
  examples: ["sign out", "sign out Acorn"],
  fields: z.object({ thing: thing.optional() }),
  changes: true,
  values,
  run({ bench, who }, { thing: text }) {
    const signed = Object.values(bench.inUse ?? {});
    const found = text === undefined ? undefined : meant(bench, "sign out", text);
    if (found !== undefined && "reply" in found) return found.reply;
    const going =
      found === undefined
        ? signed.filter(({ by }) => by === who)
        : signed.filter((one) => isSame(one, found.thing));
    if (going.length === 0) {
      return answer({
        title: text === undefined ? "You have signed in nothing." : "Nobody had signed that in.",
        say: "There is nothing to sign out.",
        facts: { things: [] },
      });
    }
    const names = going.map(calledThing);
    return {
      bench: signOut(bench, going),
      reply: answer({
        title: `Free again: ${names.join(", ")}.`,
        say: going.length === 1 ? "It is free again." : `${going.length} things are free again.`,
        facts: { things: names },
      }),
    };
  },
});

export const inUseCommand = defineCommand({
  name: "in use",
  summary: "Who has which bottle, tank and thermometer, signed in or in an open run.",
  topic: "bench",
  sentences: [
    "(what|which bottles|which tanks|what things) (is|are) in use",
    "[show] [me] [the] (sign-in|sign in|signin) list",
    "who (has|is using|uses|took) [the] [(bottle|tank)] {thing}",
    "who has what",
  ],
  slots: { thing: "text" },
  examples: ["what is in use", "who has Acorn"],
  fields: z.object({ thing: thing.optional() }),
  changes: false,
  aside: true,
  values: {
    ...values,
    in_use: "one entry each: kind, name, by, since (ISO), run (tank of the run it serves, or null)",
  },
  run({ bench, now }, { thing: text }) {
    const found = text === undefined ? undefined : meant(bench, "in use", text);
    if (found !== undefined && "reply" in found) return found.reply;
    const all = takenThings(bench);
    const taken = found === undefined ? all : all.filter((one) => isSame(one, found.thing));
    const in_use = taken.map(({ kind, name, by, since, run }) => ({
      kind,
      name,
      by,
      since: isoInstant(since),
      run: run ?? null,
    }));
    if (found !== undefined) {
      const [holder] = taken;
      const words =
        holder === undefined ? `Nobody has ${calledThing(found.thing)}.` : heldWords(bench, holder);
      return answer({
        title: words,
        say: holder === undefined ? "Nobody has it." : `${holder.by} has it.`,
        facts: { in_use, things: [calledThing(found.thing)] },
      });
    }
    return answer({
      title: taken.length === 0 ? "Nothing is in use." : `In use: ${taken.length}`,
      lines: takenLines(bench, now),
      say:
        taken.length === 0
          ? "Nothing is in use."
          : `${taken.length} thing${taken.length === 1 ? "" : "s"} in use.`,
      facts: { in_use },
    });
  },
});
