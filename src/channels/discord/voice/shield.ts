import type { VoiceConnection, VoiceConnectionState } from "@discordjs/voice";

type Networking = Extract<VoiceConnectionState, { networking: object }>["networking"];
type Socket = Extract<Networking["state"], { ws: object }>["ws"];
type Udp = Extract<Networking["state"], { udp: object }>["udp"];

/**
 * The library throws within the events of its sockets when a message is not as it expects, and such
 * a throw would end the whole process. Here a packet of that kind is let by, and a message on the
 * secured socket is told of, since what it was to bring about is missing from then on.
 */
export function shieldConnection(connection: VoiceConnection): void {
  const { receiver } = connection;
  const take = receiver.onUdpMessage;
  receiver.onUdpMessage = (packet) => {
    try {
      take(packet);
    } catch {
      // Too short for a header: no sound of anybody, and anyone at all can send it.
    }
  };
}

/** @param onBroken  called after a message that the library could not take */
export function shieldNetworking(networking: Networking, onBroken: (error: unknown) => void): void {
  const shield = (state: Networking["state"]): void => {
    if ("ws" in state) shieldSocket(state.ws, onBroken);
    if ("udp" in state) shieldUdp(state.udp);
  };
  shield(networking.state);
  networking.on("stateChange", (old, now) => {
    const wsBefore = "ws" in old ? old.ws : undefined;
    const udpBefore = "udp" in old ? old.udp : undefined;
    if ("ws" in now && now.ws !== wsBefore) shieldSocket(now.ws, onBroken);
    if ("udp" in now && now.udp !== udpBefore) shieldUdp(now.udp);
  });
}

/** The library sends its first sign of life a moment after it has made a socket, also if that is closed by then. */
function shieldUdp(udp: Udp): void {
  const send = udp.send.bind(udp);
  udp.send = (packet) => {
    try {
      send(packet);
    } catch {
      // Closed meanwhile: there is nobody to send it to.
    }
  };
}

function shieldSocket(socket: Socket, onBroken: (error: unknown) => void): void {
  const take = socket.onMessage.bind(socket);
  socket.onMessage = (event) => {
    try {
      take(event);
    } catch (error) {
      onBroken(error);
    }
  };
}
