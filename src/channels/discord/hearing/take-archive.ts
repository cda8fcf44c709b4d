import type { APIAttachment } from "discord-api-types/v10";
import { listeningOf } from "../../../conversation/listening.ts";
import { understand } from "../../../conversation/understand.ts";
import { ExportError } from "../../../export/export-error.ts";
import { toWords } from "../../../language/words.ts";
import { refuse } from "../../../reply/reply.ts";
import type { Room, Speaker } from "../rooms/room.ts";
import { payload } from "../words/message-payload.ts";
import { type Answer, answerAt } from "./answer-at.ts";
import type { Desk } from "./desk.ts";
import { fetchWithin } from "./fetch-within.ts";

/** An archive larger than this, bytes, is not fetched. */
const LARGEST = 25 * 1024 * 1024;

/**
 * "restore everything" with an archive attached: the one file this channel takes, and from an owner
 * alone. It is laid into the bench's own folder under a name of ours, looked through like any other,
 * and named with all it would replace before a yes.
 *
 * @returns undefined where nobody asked for a restore, or may: then no file is looked at
 */
export async function takeArchive(
  room: Room,
  speaker: Speaker,
  text: string,
  attached: readonly APIAttachment[],
  desk: Desk,
): Promise<Answer | undefined> {
  const [file, second] = attached;
  const { bench } = room.keeper.record;
  const meant = understand(toWords(text), desk.commands, listeningOf(bench, desk.now()));
  if (meant?.command.name !== "restore" || speaker.standing !== "owner") return undefined;
  if (file === undefined || second !== undefined || !/\.zip$/i.test(file.filename)) {
    return {
      payloads: [payload("For a restore attach one file that I exported, ending in .zip.")],
    };
  }
  if (file.size > LARGEST) return { payloads: [payload(tooLarge)] };
  const bytes = await fetchWithin(file.url, LARGEST).catch(() => undefined);
  if (bytes === undefined) return { payloads: [payload(notFetched)] };
  if (bytes === "too-large") return { payloads: [payload(tooLarge)] };
  const said = await room.files.receive(bytes).then(
    (name) => ({ command: "restore", fields: { file: name } }),
    (error: unknown) => ({
      refusal: refuse("bad-archive", error instanceof ExportError ? error.message : notKept),
    }),
  );
  const answer = await answerAt(room, speaker, desk.api, () => said);
  if (answer.isRefusal === true) await room.files.dropReceived().catch(desk.onFault);
  return answer;
}

const tooLarge =
  "That file is larger than I take here, 25 MB: whoever runs me can put it into the folder exports. Nothing was changed.";
const notFetched = "I could not fetch that file. Nothing was changed; send it again.";
const notKept = "I could not keep that file. Nothing was changed; send it again later.";
