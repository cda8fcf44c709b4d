import { drawingOf } from "../../../picture/drawing-of.ts";
import { toPng } from "../../../picture/png.ts";
import type { Reply, ReplyDocument } from "../../../reply/reply.ts";
import { fileNameOf } from "../../../store/names.ts";
import { faultReply } from "../../console/fault.ts";
import type { Api } from "../delivery/api.ts";
import type { Attachment } from "../delivery/chat.ts";
import type { Room, Said, Speaker } from "../rooms/room.ts";
import { type MessagePayload, payload } from "../words/message-payload.ts";
import { answerOffer, dropOffer, offerShare } from "./sharing.ts";

export type Answer = {
  readonly payloads: readonly MessagePayload[];
  readonly attached?: Attachment | undefined;
  readonly isRefusal?: boolean;
};

/** What Discord takes of one file, bytes. */
const LARGEST = 10 * 1024 * 1024;

/** An archive goes back the way it came. */
const HAND_IN =
  "Or an owner attaches it to a direct message to me, or to a mention, that says restore everything.";

const endings: Readonly<Record<ReplyDocument["kind"], string>> = { markdown: "md", json: "json" };

/**
 * What a bench answers to a member, as messages. Never rejects: what goes wrong is said. A yes to
 * the preview of a run, in whatever words, posts what was shown; anything else puts it aside.
 *
 * @param hidden  whether this answer is for the member's eyes alone
 */
export async function answerAt(
  room: Room,
  speaker: Speaker,
  api: Api,
  read: () => Said | { readonly refusal: Reply },
  hidden: (reply: Reply) => boolean = () => false,
): Promise<Answer> {
  const reply = await room.hear(read, speaker).catch(faultReply);
  if (reply.shared === true) {
    return { payloads: [payload(await answerOffer(room, speaker, true, api))] };
  }
  await dropOffer(room, speaker).catch(() => undefined);
  const made = await attach(room, reply);
  const payloads = room.render(made.reply, speaker.name, hidden(reply));
  const isRefusal = reply.kind === "refusal";
  if (reply.share === undefined) return { payloads, attached: made.attached, isRefusal };
  // The yes and no of a preview are those of the post below it.
  const bare = payloads.map((one): MessagePayload => ({ ...one, components: [] }));
  const offer = await offerShare(room, reply.share, speaker).catch(() => []);
  return { payloads: [...bare, ...offer], attached: made.attached };
}

type Made = { readonly reply: Reply; readonly attached?: Attachment };

const withCaution = (reply: Reply, caution: string): Reply => ({
  ...reply,
  cautions: [...reply.cautions, caution],
});

/** The picture, the document or the archive that goes with a reply. */
async function attach(room: Room, reply: Reply): Promise<Made> {
  const { picture, document } = reply;
  if (document !== undefined) {
    const name = `${fileNameOf(document.name)}.${endings[document.kind]}`;
    return { reply, attached: { name, data: Buffer.from(document.text) } };
  }
  if (picture !== undefined) {
    try {
      const data = await toPng(drawingOf(picture, "phone"));
      return { reply, attached: { name: `${fileNameOf(picture.name)}.png`, data } };
    } catch {
      return {
        reply: withCaution(reply, "No picture: it could not be drawn. The text holds."),
      };
    }
  }
  const archive = /^exports\/([^/]+\.zip)$/.exec(String(reply.facts.file ?? ""))?.[1];
  if (archive === undefined || reply.facts.bytes === undefined) return { reply };
  if (Number(reply.facts.bytes) > LARGEST) {
    return {
      reply: withCaution(
        reply,
        "It is larger than Discord takes: whoever runs me finds it in the data folder.",
      ),
    };
  }
  return {
    reply: { ...reply, lines: [...reply.lines, HAND_IN] },
    attached: { name: archive, data: await room.archive(archive) },
  };
}
