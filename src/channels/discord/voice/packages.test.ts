import { expect, test } from "vitest";
import { missingPackages } from "./packages.ts";

test("nothing is missing where all is installed; what is missing is named", () => {
  expect(missingPackages()).toEqual([]);
  expect(missingPackages((name) => name !== "opusscript")).toEqual(["opusscript"]);
  expect(missingPackages(() => false)).toHaveLength(4);
});
