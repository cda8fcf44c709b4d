/**
 * Kills a living session again and again: `npm run prove -- 1000 2026` kills 1,000 times at the
 * moments of seed 2026, and a twentieth as often a bench with a long past while it is restored.
 * Takes about a second each.
 */
import { killRewrites } from "../support/kill-rewrites.ts";
import { killSessions } from "../support/kill-sessions.ts";

const [kills = "1000", seed = "2026"] = process.argv.slice(2);
const sessions = await killSessions(Number(kills), Number(seed));
process.stdout.write(`${JSON.stringify(sessions)}\n`);
const rewrites = await killRewrites(Math.ceil(Number(kills) / 20), Number(seed));
process.stdout.write(`${JSON.stringify(rewrites)}\n`);
