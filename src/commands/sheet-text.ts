import { showOrigin } from "../domain/origin.ts";
import type { Bath, PushRule, ReuseRule, Sheet } from "../domain/process/sheet.ts";
import type { Country } from "../domain/units/conversions.ts";
import type { Seconds } from "../domain/units/quantity.ts";
import {
  plain,
  showDuration,
  showMass,
  showTemperature,
  showVolumeFor,
} from "../domain/units/show.ts";

/** A sheet as lines, each figure with its origin where the sheet mixes several. */
export function sheetLines(sheet: Sheet): readonly string[] {
  return sheet.baths.flatMap((bath) => bathLines(bath, sheet.country));
}

function bathLines(bath: Bath, country: Country | undefined): readonly string[] {
  const { mix, time, temperature, tolerance, agitation, capacity, capacityPerLitre, keeps } = bath;
  const lines: string[] = [];
  if (mix !== undefined) {
    const warm =
      mix.temperature === undefined ? "" : ` at ${showTemperature(mix.temperature.value)}`;
    const parts = mix.parts.map(({ name, form, amount }) => {
      const much =
        amount === undefined
          ? "all"
          : "ml" in amount
            ? showVolumeFor(amount.ml, country)
            : showMass(amount.g);
      return `${name} ${much}${form === "powder" ? " powder" : ""}`;
    });
    lines.push(
      `${bath.name}, mix: start water ${showVolumeFor(mix.startWater.value, country)}${warm}; ${parts.join(", ")}; up to ${showVolumeFor(mix.total.value, country)}  [${showOrigin(mix.total.origin)}]`,
    );
  }
  if (time !== undefined) {
    const sense = bath.sense === "exact" ? "exactly" : "at least";
    const at = temperature === undefined ? "" : ` at ${showTemperature(temperature.value)}`;
    const band = tolerance === undefined ? "" : ` ±${plain(tolerance.value, 2)} °C`;
    lines.push(
      `${bath.name}: ${sense} ${showDuration(time.value)}${at}${band}  [${showOrigin(time.origin)}]`,
    );
  }
  if (agitation !== undefined) {
    const later =
      agitation.every === undefined
        ? ""
        : `, then ${plain(agitation.each?.value ?? 0, 0)} s every ${showDuration(agitation.every.value)}`;
    lines.push(
      `${bath.name}, agitation: first ${showDuration(agitation.initial.value)}${later}  [${showOrigin((agitation.every ?? agitation.initial).origin)}]`,
    );
  }
  if (capacity !== undefined) {
    lines.push(
      `${bath.name}, capacity: ${plain(capacity.value, 1)} units  [${showOrigin(capacity.origin)}]`,
    );
  }
  if (capacityPerLitre !== undefined) {
    lines.push(
      `${bath.name}, capacity: ${plain(capacityPerLitre.value, 1)} units a litre  [${showOrigin(capacityPerLitre.origin)}]`,
    );
  }
  if (keeps !== undefined) {
    lines.push(
      `${bath.name}, keeps: ${plain(keeps.value, 0)} days mixed  [${showOrigin(keeps.origin)}]`,
    );
  }
  const { keepsPart, reuse, replenish, push, timeLaw } = bath;
  if (keepsPart !== undefined) {
    lines.push(
      `${bath.name}, keeps: ${plain(keepsPart.value, 0)} days part full  [${showOrigin(keepsPart.origin)}]`,
    );
  }
  if (reuse !== undefined) {
    lines.push(`${bath.name}, re-use: ${reuseWords(reuse)}  [${showOrigin(reuse.origin)}]`);
  }
  if (replenish !== undefined) {
    lines.push(
      `${bath.name}, replenisher: ${plain(replenish.value, 1)} mL per roll  [${showOrigin(replenish.origin)}]`,
    );
  }
  if (push !== undefined) {
    lines.push(`${bath.name}, push: ${pushWords(push)}  [${showOrigin(push.origin)}]`);
  }
  if (timeLaw !== undefined) {
    const allowed =
      bath.compensation === true
        ? "; may be changed while film is in it"
        : "; not while film is in it";
    lines.push(
      `${bath.name}, times: ${lawWords(timeLaw)}${allowed}  [${showOrigin(timeLaw.origin)}]`,
    );
  }
  return lines;
}

function reuseWords(rule: ReuseRule): string {
  switch (rule.kind) {
    case "percent":
      return `${plain(rule.percent, 2)} % per roll${rule.compounded ? ", each on top of the last" : ""}`;
    case "seconds":
      return `${plain(rule.seconds, 1)} s per ${rule.per === "unit" ? "roll" : "tank"}`;
    case "table":
      return `${rule.means === "done" ? "done so far" : "this one"}: ${rowWords(rule.rows)}`;
  }
}

function lawWords(law: NonNullable<Bath["timeLaw"]>): string {
  switch (law.kind) {
    case "table":
      return law.rows.map(({ at, time }) => `${plain(at, 1)} °C ${showDuration(time)}`).join(", ");
    case "q10":
      return `factor ${plain(law.q10, 3)} for 10 °C`;
    case "k7":
      return `factor ${plain(law.k7, 3)} for 7 °C`;
  }
}

/** A push rule in a few words, without its origin. */
export function pushWords(rule: PushRule): string {
  switch (rule.kind) {
    case "seconds":
      return `${plain(rule.seconds, 1)} s per stop`;
    case "factor":
      return `times ${plain(rule.factor, 3)} for each stop`;
    case "table":
      return rowWords(rule.rows);
  }
}

const rowWords = (rows: readonly { readonly at: number; readonly time: Seconds }[]): string =>
  rows.map(({ at, time }) => `${plain(at, 2)} ${showDuration(time)}`).join(", ");
