import type { Moment } from "../../reply/reply.ts";
import { printable } from "./printable.ts";
import { renderMoment } from "./render.ts";

/** What stays free for typing on the line of the prompt, in characters. */
const ROOM = 14;

/**
 * The prompt of the terminal: the time, and what the clock is doing. As much of it as leaves room
 * to type; the time that is left outlasts the bath, and the bath the tank and the time of day.
 */
export function clockLine(time: string, moment: Moment, columns: number): string {
  const whole = renderMoment(moment);
  const forms = [`${time}  ${whole}`];
  if (moment.kind === "running") {
    const ofBath = whole.slice(printable(moment.tank).length + 1);
    forms.push(ofBath, ofBath.slice(printable(moment.bath).length + 1));
  } else forms.push(time);
  const form = forms.find((one) => one.length + ROOM <= columns);
  return form === undefined ? "> " : `[${form}] > `;
}
