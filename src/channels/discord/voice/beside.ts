import type { Reply } from "../../../reply/reply.ts";
import type { Passed } from "../../../speech/trust/judge.ts";
import type { Chat } from "../delivery/chat.ts";
import { renderApart } from "../hearing/render-apart.ts";
import type { Room, Speaker } from "../rooms/room.ts";
import { cleanOutgoing } from "../words/clean-outgoing.ts";
import { type MessagePayload, payload } from "../words/message-payload.ts";

/** What a call writes in its bench's text channel. In the dark nothing lights up. */
export type Beside = {
  /** A sentence of the channel's own. */
  say(room: Room, sentence: string): void;
  /** A member's words as they were heard, and the answer to them. First aid also in the dark. */
  ask(room: Room, speaker: Speaker, said: Passed): Promise<Reply>;
};

/** @param now  for nonces, which are unlike any other of this bot's */
export function createBeside(chat: Chat, now: () => number): Beside {
  let lines = 0;
  const post = ({ place: { value } }: Room, payloads: readonly MessagePayload[]): void => {
    if (value.closed !== undefined) return;
    const made = payloads.map((one) => {
      lines += 1;
      return { payload: one, nonce: `v${Math.floor(now()).toString(36)}-${lines}` };
    });
    chat.say(value.channel, made);
  };
  const isDark = ({ keeper }: Room): boolean => keeper.record.bench.mode === "dark";
  return {
    say(room, sentence) {
      if (!isDark(room)) post(room, [payload(sentence)]);
    },
    async ask(room, speaker, { text, saidAt }) {
      const aid = room.keeper.firstAid({ text, who: speaker.name }, room.now());
      const reply = aid ?? (await room.hear(() => ({ text, saidAt }), speaker));
      if (isDark(room) && aid === undefined) return reply;
      const heard = `${cleanOutgoing(speaker.name)}, as I heard it: ${cleanOutgoing(text)}`;
      const answered =
        aid === undefined ? room.render(reply, speaker.name) : renderApart(aid, room.now(), false);
      post(room, [payload(heard, { silent: true }), ...answered]);
      return reply;
    },
  };
}
