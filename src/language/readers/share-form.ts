import { phrases } from "./phrases.ts";

const REPEATABLE =
  "repeatable, repeatably, as repeatable, as a repeatable, to repeat, repeatable form, the repeatable form, as a plan, a repeatable, as a plan to repeat, so others can repeat it, so that others can repeat it, so another bench can repeat it";

/** The slot `{plan}`: so that another bench can do it again. */
export const readRepeatableForm = phrases<"repeatable">([["repeatable", REPEATABLE]]);

/** The slot `{shareForm}`: as a plan to repeat, or drawn. */
export const readShareForm = phrases<"repeatable" | "picture">([
  ["repeatable", REPEATABLE],
  [
    "picture",
    "picture, a picture, the picture, as a picture, as picture, image, an image, the image, as an image, summary picture, the summary picture",
  ],
]);
