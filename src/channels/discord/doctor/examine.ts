import { systemClock } from "../../../platform/clock.ts";
import type { DiscordSettings } from "../../../settings.ts";
import { createApi } from "../delivery/api.ts";
import { Limits } from "../delivery/limits.ts";
import { examineClock } from "./examine-clock.ts";
import { examineData } from "./examine-data.ts";
import { examineDiscord } from "./examine-discord.ts";
import { examineVoice } from "./examine-voice.ts";
import type { Finding } from "./finding.ts";

/** Discord's own address, where the settings name no other. */
const OWN_API = "https://discord.com/api";
const PATIENCE = 10_000;

/** Looks at everything the Discord channel needs, and says in plain words what to mend. */
export async function examine(
  settings: DiscordSettings,
  data: string,
): Promise<readonly Finding[]> {
  const { findings, places } = await examineData(data);
  const clock = systemClock;
  const now = (): number => clock.wall();
  const api = createApi({ settings, limits: new Limits(), clock, now: clock.monotonic });
  const from = now();
  const date = await fetch(`${settings.api ?? OWN_API}/v10/gateway`, {
    signal: AbortSignal.timeout(PATIENCE),
  })
    .then(async (answer) => {
      await answer.body?.cancel();
      return answer.headers.get("date");
    })
    .catch(() => undefined);
  const time = date === undefined ? [] : [examineClock(date, { from, to: now() })];
  return [...findings, ...time, examineVoice(), ...(await examineDiscord(api, settings, places))];
}
