import { told as toldOrigin } from "../origin.ts";
import { isDeveloper } from "../process/sheet.ts";
import { explainTime, tableTime } from "../temperature/time-from-temperature.ts";
import { checkLaw, explainLaw } from "../temperature/time-law.ts";
import { millilitres, seconds } from "../units/quantity.ts";
import { plain, showCelsius, showDuration, showVolume } from "../units/show.ts";
import type { Answers, BathAnswers } from "./answers.ts";

/**
 * What is wrong with the figures of one bath, in one sentence; undefined when they hold together.
 * Bounds are plausibility, not chemistry: developers are mixed at 32 to 52 °C and fixers not much
 * above 27 °C in a US Navy photography training manual, mixing section (read), so 80 °C is a slip.
 */
export function checkBath(answers: Answers, name: string): string | undefined {
  const told = answers.bath?.[name];
  const kind = answers.baths?.find((bath) => bath.name === name)?.kind ?? name;
  if (told === undefined) return undefined;
  const { total, water, warm, parts, time, temperature, agitation, capacity, keeps } = told;
  if (total !== undefined && total !== null && (total < LEAST_BATCH || total > 200_000)) {
    return `A batch of ${showVolume(total)} cannot be. Read me how much one batch makes.`;
  }
  if (water !== undefined && total !== undefined && total !== null) {
    if (water <= 0)
      return `${showVolume(water)} of start water cannot be. Read me the start water again.`;
    if (water > total) {
      return `Start water of ${showVolume(water)} is more than the batch of ${showVolume(total)}. Read me the start water again.`;
    }
    const liquids = (parts ?? []).reduce(
      (sum, { amount }) => sum + (amount !== undefined && "ml" in amount ? amount.ml : 0),
      0,
    );
    if (water + liquids > total + 1e-6) {
      return `Start water ${showVolume(water)} and parts ${showVolume(millilitres(liquids))} come to ${showVolume(millilitres(water + liquids))}, more than the batch of ${showVolume(total)}. Read me the parts again.`;
    }
  }
  const names = (parts ?? []).map((part) => part.name.toLowerCase());
  const twice = names.find((part, index) => names.indexOf(part) !== index);
  if (twice !== undefined)
    return `Part ${twice} stands there twice. Read me the parts again, in order.`;
  if (warm !== undefined && warm !== null && (warm < 1 || warm > 80)) {
    return `Mixing water at ${showCelsius(warm)} is not plausible. Read it again with its unit, C or F.`;
  }
  if (time !== undefined && time.time > 0 && time.time < 11 && !isDeveloper(kind)) {
    return `${showDuration(time.time)} is no time for a bath: its last 10 seconds are for pouring out. Read it with those on top: ${showDuration(seconds(time.time + 10))}.`;
  }
  if (time !== undefined && (time.time < 11 || time.time > 86_400)) {
    return `${showDuration(time.time)} is no time for a bath: more than 10 seconds, at most a day. Read it again.`;
  }
  if (temperature !== undefined && temperature !== null) {
    const [least, most] = isDeveloper(kind) ? [10, 50] : [5, 60];
    if (temperature.temperature < least || temperature.temperature > most) {
      return `${name} at ${showCelsius(temperature.temperature)} is not plausible. Read it again with its unit, C or F.`;
    }
    if (
      temperature.tolerance !== undefined &&
      (temperature.tolerance <= 0 || temperature.tolerance > 15)
    ) {
      return `A band of ±${plain(temperature.tolerance, 2)} °C is not plausible. Read it again.`;
    }
  }
  if (agitation !== undefined && agitation !== null) {
    const { initial, every, each } = agitation;
    if (time !== undefined && initial > time.time) {
      return `Agitating ${showDuration(initial)} is longer than the ${showDuration(time.time)} in the bath. Read it again.`;
    }
    if (initial < 0 || (each !== undefined && each < 0)) {
      const least = Math.min(initial, each ?? initial);
      return `Agitating for ${showDuration(seconds(least))} cannot be. Read the agitation again.`;
    }
    if (every !== undefined && (every < 2 || (each ?? seconds(0)) > every)) {
      return `${showDuration(each ?? seconds(0))} every ${showDuration(every)} cannot be. Read the agitation again.`;
    }
  }
  if (capacity !== undefined && capacity !== null && (capacity <= 0 || capacity > 1000)) {
    return `${plain(capacity, 1)} rolls is not plausible for one batch. Read it again.`;
  }
  const rule = checkReuse(told) ?? checkPush(told) ?? checkTimes(told);
  if (rule !== undefined) return rule;
  if (
    told.keepsPart !== undefined &&
    told.keepsPart !== null &&
    keeps !== undefined &&
    keeps !== null &&
    told.keepsPart > keeps
  ) {
    return `${plain(told.keepsPart, 0)} days part full is longer than ${plain(keeps, 0)} days full. Read the keeping time again.`;
  }
  if (keeps !== undefined && keeps !== null && (keeps < 0.5 || keeps > 3650)) {
    return `${plain(keeps, 1)} days is not plausible. Read the keeping time again.`;
  }
  return undefined;
}

/** Less than this covers no film in any tank, mL; common practice, no source. */
const LEAST_BATCH = 50;

/** A time never falls with film done, and no rule doubles it with a single roll. */
function checkReuse({ reuse, time }: BathAnswers): string | undefined {
  if (reuse === undefined || reuse === null) return undefined;
  switch (reuse.kind) {
    case "percent":
      return reuse.percent <= 0 || reuse.percent > 50
        ? `${plain(reuse.percent, 2)} % per roll is not plausible. Read the re-use rule again.`
        : undefined;
    case "seconds":
      return reuse.seconds <= 0 || (time !== undefined && reuse.seconds > time.time)
        ? `${showDuration(reuse.seconds)} more each time is not plausible. Read the re-use rule again.`
        : undefined;
    case "replenish":
      return reuse.ml <= 0 || reuse.ml > 1000
        ? `${showVolume(reuse.ml)} of replenisher per roll is not plausible. Read it again.`
        : undefined;
    case "table":
      return checkRows(reuse.rows, time?.time, "re-use");
  }
}

function checkPush({ push, time }: BathAnswers): string | undefined {
  if (push === undefined || push === null) return undefined;
  switch (push.kind) {
    case "seconds":
      return push.seconds <= 0 || (time !== undefined && push.seconds > 2 * time.time)
        ? `${showDuration(push.seconds)} per stop is not plausible. Read the push rule again.`
        : undefined;
    case "factor":
      return push.factor <= 1 || push.factor > 3
        ? `Times ${plain(push.factor, 2)} per stop is not plausible. Read the push rule again.`
        : undefined;
    case "table":
      return checkRows(push.rows, time?.time, "push");
  }
}

/** A law that can be used, whose table holds the sheet's own time where it holds its temperature. */
function checkTimes({ times, time, temperature }: BathAnswers): string | undefined {
  if (times === undefined || times === null) return undefined;
  const law = { ...times, origin: toldOrigin };
  const wrong = checkLaw(law);
  if (wrong !== undefined) return explainLaw(wrong);
  const aim = temperature?.temperature;
  if (aim === undefined) {
    return "Times at other temperatures need the sheet's own temperature first. Say change, its bath, temperature, and the figure.";
  }
  if (law.kind !== "table" || time === undefined) return undefined;
  const there = tableTime(law, aim);
  if (!there.ok) return explainTime(there.error);
  return Math.abs(there.value - time.time) > Math.max(2, time.time * 0.05)
    ? `The table gives ${showDuration(there.value)} at ${showCelsius(aim)}, and the sheet's time there is ${showDuration(time.time)}. Read me both again.`
    : undefined;
}

/** Rows of a table rise: more film, or more push, never wants a shorter time. */
function checkRows(
  rows: readonly { readonly at: number; readonly time: number }[],
  base: number | undefined,
  what: string,
): string | undefined {
  const sorted = rows.toSorted((a, b) => a.at - b.at);
  for (const [index, row] of sorted.entries()) {
    const before = sorted[index - 1];
    if (before !== undefined && before.at === row.at) {
      return `The ${what} table has ${plain(row.at, 2)} twice. Read me the rows again.`;
    }
    if (before !== undefined && row.time < before.time) {
      return `In the ${what} table ${showDuration(seconds(row.time))} for ${plain(row.at, 2)} is shorter than the row before. Read me the rows again.`;
    }
    if (base !== undefined && (row.time > 4 * base || row.time < base / 4)) {
      return `${showDuration(seconds(row.time))} is far from the sheet's ${showDuration(seconds(base))}. Read me the rows again.`;
    }
  }
  return undefined;
}
