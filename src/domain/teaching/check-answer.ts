import { isDeveloper } from "../process/sheet.ts";
import { millilitres, seconds } from "../units/quantity.ts";
import { plain, showCelsius, showDuration, showVolume } from "../units/show.ts";
import type { Answers } from "./answers.ts";

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
  if (total !== undefined && total !== null && (total <= 0 || total > 200_000)) {
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
  if (time !== undefined && (time.time < 11 || time.time > 86_400)) {
    return `${showDuration(time.time)} is no time for a bath: more than 10 seconds, at most a day. Read it again.`;
  }
  if (temperature !== undefined && temperature !== null) {
    const most = isDeveloper(kind) ? 50 : 60;
    if (temperature.temperature < 5 || temperature.temperature > most) {
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
  if (keeps !== undefined && keeps !== null && (keeps < 0.5 || keeps > 3650)) {
    return `${plain(keeps, 1)} days is not plausible. Read the keeping time again.`;
  }
  return undefined;
}
