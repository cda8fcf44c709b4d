import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { z } from "zod";

const top = join(import.meta.dirname, "../..");
const read = (path: string): string => readFileSync(join(top, path), "utf8");

const named = z.record(z.string(), z.string()).default({});
const manifest = z
  .object({ dependencies: named, devDependencies: named, optionalDependencies: named })
  .parse(JSON.parse(read("package.json")));
const direct = {
  ...manifest.dependencies,
  ...manifest.devDependencies,
  ...manifest.optionalDependencies,
};

const entry = z.looseObject({
  version: z.string().optional(),
  resolved: z.string().optional(),
  integrity: z.string().optional(),
  license: z.string().optional(),
  dev: z.boolean().default(false),
  optional: z.boolean().default(false),
  hasInstallScript: z.boolean().default(false),
});
const lock = z
  .object({ lockfileVersion: z.literal(3), packages: z.record(z.string(), entry) })
  .parse(JSON.parse(read("package-lock.json")));
const locked = Object.entries(lock.packages).filter(([path]) => path !== "");

/**
 * Licences (SPDX ids) of what the program is made of. All allow use and passing on; MPL-2.0 asks
 * for the source of its own files, OFL-1.1 keeps a font's name. Another one is looked at by a
 * person before it is added here.
 */
const ALLOWED: ReadonlySet<string> = new Set([
  ...["0BSD", "Apache-2.0", "BlueOak-1.0.0", "BSD-2-Clause", "BSD-3-Clause", "ISC", "MIT"],
  ...["MPL-2.0", "OFL-1.1"],
]);

/** "MIT AND OFL-1.1": all of them; "(MIT OR X)": one is enough. */
const isAllowed = (expression: string): boolean =>
  expression
    .replace(/[()]/g, "")
    .split(" AND ")
    .every((part) => part.split(" OR ").some((one) => ALLOWED.has(one.trim())));

test("every dependency has a row in DEVELOPERS.md that says what it is for, and no row is left over", () => {
  const [, section = ""] = read("DEVELOPERS.md").split("\n## Dependencies\n");
  const [table = ""] = section.split("\n## ");
  const rows = table
    .split("\n")
    .filter((line) => line.startsWith("| "))
    .slice(1)
    .filter((line) => !/^\| -+/.test(line))
    .map((line) => line.split("|").map((cell) => cell.trim()));
  const names = rows.flatMap(([, cell = ""]) => cell.replace(/\(.*?\)/g, "").split(/,\s*/));
  expect(names.map((name) => name.trim()).toSorted()).toEqual(Object.keys(direct).toSorted());
  for (const [, name, purpose = ""] of rows) {
    expect([name, purpose.split(" ").length > 1]).toEqual([name, true]);
  }
});

test("every dependency is pinned to one version, the one that is locked", () => {
  for (const [name, version] of Object.entries(direct)) {
    expect([name, version]).toEqual([name, expect.stringMatching(/^\d+\.\d+\.\d+$/)]);
    expect([name, lock.packages[`node_modules/${name}`]?.version]).toEqual([name, version]);
  }
});

test("what is locked is locked by its content, and comes from the registry", () => {
  expect(locked.length).toBeGreaterThan(50);
  for (const [path, { integrity, resolved = "https://registry.npmjs.org/" }] of locked) {
    expect([path, integrity]).toEqual([path, expect.stringMatching(/^sha512-/)]);
    expect([path, resolved]).toEqual([
      path,
      expect.stringMatching(/^https:\/\/registry\.npmjs\.org\//),
    ]);
  }
});

test("no package may run a script while it is installed, and none needs one", () => {
  const settings = read(".npmrc").split("\n");
  expect(settings).toContain("ignore-scripts=true");
  expect(settings).toContain("save-exact=true");
  // koffi's would only build what its packages for each machine bring ready made.
  const scripted = locked.filter(([, { hasInstallScript }]) => hasInstallScript);
  expect(scripted.map(([path]) => path)).toEqual(["node_modules/koffi"]);
  const { scripts } = z.object({ scripts: named }).parse(JSON.parse(read("package.json")));
  expect(Object.keys(scripts).filter((name) => /install|^prepare|^prepublish/.test(name))).toEqual(
    [],
  );
});

const production = locked.filter(([, { dev }]) => !dev);

test.each(production)("%s has a licence that is allowed", (path, { license, optional }) => {
  const file = join(path, "package.json");
  // Binaries for other machines are locked and not installed here: the lock tells theirs.
  if (!existsSync(join(top, file))) expect(optional).toBe(true);
  const found = existsSync(join(top, file))
    ? z.looseObject({ license: z.string() }).parse(JSON.parse(read(file))).license
    : (license ?? "none");
  expect([found, isAllowed(found)]).toEqual([found, true]);
});

test.each(["GPL-3.0-only", "AGPL-3.0-only", "UNLICENSED", "SEE LICENSE IN x", "MIT AND GPL-3.0"])(
  "%s would not be",
  (license) => expect(isAllowed(license)).toBe(false),
);
