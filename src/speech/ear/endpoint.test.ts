import { expect, test } from "vitest";
import { type Endpoint, quiet, step, usualEndpoint } from "./endpoint.ts";

/** Runs a row of frames, `#` a voice, `.` none, and tells at which frame what happened. */
function events(frames: string): string[] {
  let at: Endpoint = quiet;
  return [...frames].flatMap((frame, index) => {
    const { at: next, event } = step(at, { voice: frame === "#" ? 0.95 : 0.05 });
    at = next;
    return event === undefined ? [] : [`${event} ${index}`];
  });
}

test("speech begins after eight frames of voice and ends after 400 ms without", () => {
  expect(events(`${".".repeat(20)}${"#".repeat(30)}${".".repeat(60)}`)).toEqual([
    "began 27",
    "ended 89",
  ]);
});

test("a click is no speech, and a breath is no end", () => {
  expect(events(`${"#".repeat(5)}${".".repeat(50)}`)).toEqual([]);
  expect(events(`${"#".repeat(20)}${".".repeat(35)}${"#".repeat(20)}`)).toEqual(["began 7"]);
});

test("a monologue is given up and heard of no more until it is over", () => {
  const talk = "#".repeat(usualEndpoint.longest + 500);
  const heard = events(`${talk}${".".repeat(60)}${"#".repeat(20)}`);
  expect(heard.map((event) => event.replace(/ \d+$/, ""))).toEqual(["began", "too-long", "began"]);
});
