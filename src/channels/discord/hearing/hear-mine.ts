import type { Room, Speaker } from "../rooms/room.ts";
import type { SlashOption } from "../words/read-interaction.ts";
import type { Desk } from "./desk.ts";
import { benchOf, chooseBench, chooseReminders } from "./direct-bench.ts";
import type { Exchange, Slash } from "./exchange.ts";
import { chosenBench, noBenchHere, remindersGo, whichBench } from "./own-words.ts";
import { wordOf } from "./word-of.ts";

/** What somebody chooses for themselves. */
export async function hearMine(
  { data, guild_id }: Slash,
  { room, speaker }: { room: Room; speaker: Speaker },
  { person, alone, answer }: Exchange,
  desk: Desk,
): Promise<void> {
  const { word, options } = wordOf((data.options ?? []) as readonly SlashOption[]);
  if (word === "reminders") {
    const where = options.where === "dm" ? "dm" : "channel";
    await chooseReminders(room, speaker, where);
    return alone(remindersGo(where, room));
  }
  if (guild_id !== undefined) {
    await chooseBench(desk, person.id, room.key);
    return alone(chosenBench(room));
  }
  await chooseBench(desk, person.id, undefined);
  const found = await benchOf(person, desk);
  if (found.kind === "several") return answer.give([whichBench(found.rooms, false)]);
  await alone(found.kind === "one" ? chosenBench(found.room) : noBenchHere(desk.isOneOfSeveral));
}
