import { phrases } from "./phrases.ts";

/** The slot `{shareForm}`: so that another bench can do it again. */
export const readShareForm = phrases<"repeatable">([
  [
    "repeatable",
    "repeatable, repeatably, as repeatable, as a repeatable, to repeat, repeatable form, the repeatable form, as a plan, a repeatable, as a plan to repeat",
  ],
]);
