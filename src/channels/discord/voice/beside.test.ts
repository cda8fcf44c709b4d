import { expect, test } from "vitest";
import { evening } from "../../../../test/support/runs.ts";
import { loadCommands } from "../../../commands/registry.ts";
import { firstAid } from "../../../conversation/first-aid.ts";
import type { Message } from "../../../conversation/turn.ts";
import type { Line } from "../delivery/chat.ts";
import type { Room } from "../rooms/room.ts";
import { createBeside } from "./beside.ts";

const commands = await loadCommands();

test("first aid in a call waits for nothing that waits at the bench, and is written also in the dark", async () => {
  const posted: Line[] = [];
  const beside = createBeside({ say: (_, lines) => void posted.push(...lines) }, () => evening);
  const room = {
    keeper: {
      record: { bench: { mode: "dark" } },
      firstAid: (message: Message) => firstAid(message, evening, commands),
    },
    place: { value: { channel: "1", closed: undefined } },
    now: () => evening,
    hear: () => new Promise(() => undefined),
    render: () => {
      throw new TypeError("a record that makes everything throw");
    },
  } as unknown as Room;
  const ines = { id: "1", name: "Ines", standing: "member" } as const;
  const reply = await beside.ask(room, ines, { text: "my eyes" });
  expect(reply.say).toContain("Rinse eyes");
  const [heard, aid] = posted.map(({ payload }) => payload.content);
  expect(heard).toContain("as I heard it: my eyes");
  expect(aid).toContain("Rinse eyes");
});
