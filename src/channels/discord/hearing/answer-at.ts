import { toPng } from "../../../picture/png.ts";
import { temperatureChart } from "../../../picture/temperature-chart.ts";
import type { Reply } from "../../../reply/reply.ts";
import { faultReply } from "../../console/fault.ts";
import type { Picture } from "../delivery/chat.ts";
import type { Room, Said, Speaker } from "../rooms/room.ts";
import type { MessagePayload } from "../words/message-payload.ts";
import { offerShare } from "./sharing.ts";

export type Answer = {
  readonly payloads: readonly MessagePayload[];
  readonly picture?: Picture | undefined;
};

/**
 * What a bench answers to a member, as messages. Never rejects: what goes wrong is said.
 *
 * @param hidden  whether this answer is for the member's eyes alone
 */
export async function answerAt(
  room: Room,
  speaker: Speaker,
  read: () => Said | { readonly refusal: Reply },
  hidden: (reply: Reply) => boolean = () => false,
): Promise<Answer> {
  const reply = await room.hear(read, speaker).catch(faultReply);
  const drawn = await draw(reply);
  const payloads = room.render(drawn.reply, speaker.name, hidden(reply));
  const offer = await offerShare(room, reply, speaker).catch(() => []);
  return { payloads: [...payloads, ...offer], picture: drawn.picture };
}

async function draw(reply: Reply): Promise<{ reply: Reply; picture?: Picture }> {
  const { picture } = reply;
  if (picture === undefined) return { reply };
  try {
    const data = await toPng(temperatureChart(picture.chart, picture.zone, "phone"));
    return { reply, picture: { name: `${picture.name}.png`, data } };
  } catch {
    const caution = "No picture: it could not be drawn. The text holds.";
    return { reply: { ...reply, cautions: [...reply.cautions, caution] } };
  }
}
