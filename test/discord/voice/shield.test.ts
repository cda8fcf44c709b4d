import { EventEmitter } from "node:events";
import { type Networking, NetworkingStatusCode, VoiceUDPSocket } from "@discordjs/voice";
import { expect, test } from "vitest";
import { shieldNetworking } from "../../../src/channels/discord/voice/shield.ts";

test("a line that is closed in the moment it is made sends nothing and throws nothing", async () => {
  const networking = Object.assign(new EventEmitter(), {
    state: { code: NetworkingStatusCode.Closed },
  });
  const broken: unknown[] = [];
  shieldNetworking(networking as unknown as Networking, (error) => broken.push(error));
  const udp = new VoiceUDPSocket({ ip: "127.0.0.1", port: 9 });
  networking.emit("stateChange", networking.state, {
    code: NetworkingStatusCode.UdpHandshaking,
    udp,
  });
  udp.destroy();
  expect(() => udp.send(Buffer.from([1]))).not.toThrow();
  // The library's own first packet goes out here; unguarded it would end the process.
  await new Promise((resolve) => setImmediate(resolve));
  expect(broken).toEqual([]);
});
