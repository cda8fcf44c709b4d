import { faultReply } from "../../console/fault.ts";
import { readTeachForm } from "../words/read-teach-form.ts";
import { takeTeachForm } from "../words/take-teach-form.ts";
import type { Desk } from "./desk.ts";
import { exchange, type Filled } from "./exchange.ts";
import { atButton } from "./hear-press.ts";
import { tooMuch } from "./own-words.ts";

/** Somebody filled in a page of the form that teaches a sheet. */
export async function hearForm(interaction: Filled, desk: Desk): Promise<void> {
  const talk = exchange(interaction, desk, false);
  if (talk === undefined) return;
  if (desk.budget.spend(talk.person.id, desk.now()) !== "heard") return talk.alone(tooMuch);
  const found = await atButton(interaction, talk, desk);
  if (found === undefined) return;
  const { room, speaker } = found;
  const { record } = room.keeper;
  const read = readTeachForm(interaction.data as Parameters<typeof readTeachForm>[0], {
    benchKey: room.key,
    record,
  });
  if ("refusal" in read) {
    return talk.answer.give(room.render(read.refusal, speaker.name, true));
  }
  const { reply, typed } = await takeTeachForm(
    read.answers,
    (call) => room.hear(() => call, speaker),
    () => room.keeper.record.bench,
  ).catch((error: unknown) => ({ reply: faultReply(error), typed: {} }));
  if (Object.keys(typed).length === 0) desk.typed.delete(`${room.key} ${speaker.id}`);
  else desk.typed.set(`${room.key} ${speaker.id}`, typed);
  await talk.answer.give(room.render(reply, speaker.name));
}
