/**
 * Imported before the program (see the scripts of package.json): keeps compiled code beside the
 * installed packages, where `npm ci` clears it away, so that the next start takes a third less
 * time. JavaScript, because what turns TypeScript into it takes time and memory of its own, which
 * a start from kept code saves. Where the folder cannot be written, nothing is kept and nothing is
 * amiss.
 */
import { enableCompileCache } from "node:module";
import { join } from "node:path";

enableCompileCache(join(import.meta.dirname, "../../node_modules/.cache/compiled"));
