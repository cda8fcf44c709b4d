import type { Moment } from "../../reply/reply.ts";
import { renderMoment } from "./render.ts";

/** What stays free for typing on the line of the prompt, in characters. */
const ROOM = 20;

/**
 * The prompt of the terminal: the time, and what the clock is doing. As much of it as leaves room
 * to type; the bath and its time outlast the tank and the time of day.
 */
export function clockLine(time: string, moment: Moment, columns: number): string {
  const short = moment.kind === "running" ? renderMoment({ ...moment, tank: "" }).trimStart() : "";
  const forms = [`[${time}  ${renderMoment(moment)}] `, `[${short === "" ? time : short}] `];
  return `${forms.find((form) => form.length + ROOM <= columns) ?? ""}> `;
}
