import { findPackageJSON } from "node:module";

/** The packages a call needs; they come as optional dependencies. */
const PACKAGES = ["@discordjs/voice", "@noble/ciphers", "@snazzah/davey", "opusscript"] as const;

const isThere = (name: string): boolean => {
  try {
    return findPackageJSON(name, import.meta.url) !== undefined;
  } catch {
    return false;
  }
};

/** Which of them are not installed. */
export const missingPackages = (has: (name: string) => boolean = isThere): readonly string[] =>
  PACKAGES.filter((name) => !has(name));
