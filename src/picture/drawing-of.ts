import type { ReplyPicture } from "../reply/reply.ts";
import type { Shape } from "./look.ts";
import { seasonPicture } from "./season-picture.ts";
import { sessionPicture } from "./session-picture.ts";
import { type Picture, temperatureChart } from "./temperature-chart.ts";

/** Whatever a reply has to show, in the shape a channel wants. */
export function drawingOf(picture: ReplyPicture, shape: Shape): Picture {
  switch (picture.kind) {
    case "temperature-chart":
      return temperatureChart(picture.chart, picture.zone, shape);
    case "session":
      return sessionPicture(picture.session, picture.words, shape);
    case "season":
      return seasonPicture(picture.season, picture.words, shape);
  }
}
