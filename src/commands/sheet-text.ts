import { showOrigin } from "../domain/origin.ts";
import type { Bath, Sheet } from "../domain/process/sheet.ts";
import type { Country } from "../domain/units/conversions.ts";
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
  const { mix, time, temperature, tolerance, agitation, capacity, keeps } = bath;
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
  if (keeps !== undefined) {
    lines.push(
      `${bath.name}, keeps: ${plain(keeps.value, 0)} days mixed  [${showOrigin(keeps.origin)}]`,
    );
  }
  return lines;
}
