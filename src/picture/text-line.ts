import { ink } from "./look.ts";
import { element, escapeXml } from "./svg.ts";

/** A line of text, `y` its baseline. */
export function line(
  text: string,
  { x, y, size, weight, fill, anchor, strike, rim }: Line,
): string {
  return element(
    "text",
    {
      x,
      y,
      "font-size": size,
      "font-weight": weight ?? 400,
      fill: fill ?? ink,
      "text-anchor": anchor,
      "text-decoration": strike === true ? "line-through" : undefined,
      // A rim of paper keeps letters readable where they cross a line.
      ...(rim === undefined
        ? {}
        : { stroke: rim, "stroke-width": size * 0.22, "paint-order": "stroke" }),
    },
    escapeXml(text),
  );
}
type Line = {
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly weight?: number;
  readonly fill?: string;
  readonly anchor?: "start" | "middle" | "end";
  readonly strike?: boolean;
  readonly rim?: string;
};
