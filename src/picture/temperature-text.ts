import type { Chart, ChartReading, ChartStage } from "../domain/session/chart.ts";
import { clockMinute, dateOf, showDate } from "../domain/timing/clock-text.ts";
import { seconds } from "../domain/units/quantity.ts";
import { plain, showCelsius, showDuration } from "../domain/units/show.ts";

const words = {
  inside: "inside",
  above: "too warm",
  below: "too cold",
  "no band": "read",
} as const;

/** What the picture says, in a few lines: one for each stage that has something to tell. */
export function temperatureText(chart: Chart, zone: string): readonly string[] {
  const told = chart.stages.filter(
    ({ readings, deviations }) => readings.length > 0 || deviations.length > 0,
  );
  const silent = chart.stages.filter((stage) => !told.includes(stage)).map(({ bath }) => bath);
  return [
    chartTitle(chart, zone),
    ...(chart.mark === undefined ? [] : [chart.mark]),
    ...told.map(stageText),
    ...(silent.length === 0 ? [] : [`Nothing read and nothing amiss: ${silent.join(", ")}.`]),
  ];
}

export const chartTitle = ({ tank, title, from }: Chart, zone: string): string =>
  `${tank}: ${title}, ${showDate(dateOf(from, zone))}, ${clockMinute(from, zone)}`;

function stageText(stage: ChartStage): string {
  const readings = stage.readings.map(readingText).join(", ");
  const parts = [
    `${stage.bath}, ${aimText(stage)}`,
    readings === "" ? "nothing read" : readings,
    ...stage.deviations.map((one) => withoutName(one, stage.bath)),
  ];
  return `${parts.join("; ")}.`;
}

/** The line begins with the bath's name already. */
export const withoutName = (deviation: string, bath: string): string =>
  deviation.startsWith(`${bath}: `) ? deviation.slice(bath.length + 2) : deviation;

export function aimText({ aim, band }: ChartStage): string {
  if (aim === undefined) return "no temperature given";
  if (band === undefined) return showCelsius(aim);
  return `${plain(aim, 1)} ±${plain(band.high - band.aim, 2)} °C`;
}

/** A reading to a tenth, as thermometers show it; to a hundredth where it was given so. */
export const degrees = (temperature: number): string => `${plain(temperature, 2)} °C`;

export const verdictText = ({ verdict }: ChartReading): string => words[verdict];

const readingText = (reading: ChartReading): string => {
  const when = reading.into < 0 ? "before the pour" : `at ${showDuration(seconds(reading.into))}`;
  const verdict = reading.verdict === "no band" ? "" : ` (${verdictText(reading)})`;
  return `${degrees(reading.temperature)} ${when}${verdict}`;
};
