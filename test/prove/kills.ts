/**
 * Kills a living session again and again: `npm run prove -- 1000 2026` kills 1,000 times at the
 * moments of seed 2026. Takes about a second each.
 */
import { killSessions } from "../support/kill-sessions.ts";

const [kills = "1000", seed = "2026"] = process.argv.slice(2);
const figures = await killSessions(Number(kills), Number(seed));
process.stdout.write(`${JSON.stringify(figures)}\n`);
