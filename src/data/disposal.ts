import { z } from "zod";
import file from "../../data/disposal.json" with { type: "json" };

const checked = z
  .strictObject({
    always: z.string(),
    alwaysSource: z.string(),
    routes: z
      .array(
        z.strictObject({
          baths: z.array(z.string()).min(1),
          drain: z.enum(["any", "sewer", "septic", "unknown"]),
          route: z.string(),
          text: z.string(),
          source: z.string(),
        }),
      )
      .min(1),
  })
  .parse(file);

export type DisposalRoute = (typeof checked.routes)[number];

/** Said with every route. */
export const localCodes: string = checked.always;

/** Where a kind of bath may go from a household with this drain: the first row that fits. */
export function disposalRoute(
  kind: string,
  drain: "sewer" | "septic" | "unknown",
): DisposalRoute | undefined {
  const bath = kind.endsWith("developer") ? "developer" : kind;
  return checked.routes.find(
    (route) =>
      (route.drain === "any" || route.drain === drain) &&
      (route.baths.includes("any") || route.baths.includes(bath)),
  );
}
