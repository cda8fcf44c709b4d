import { once } from "node:events";
import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import { GatewayOpcodes as Op } from "discord-api-types/v10";
import type { Gateway } from "./gateway/gateway.ts";
import type { Sockets } from "./gateway/serve.ts";
import { closeConnection, sendTo } from "./gateway/session.ts";

/** The wire between bot and service, to be cut and mended. */
export type Line = {
  /** Closes the bot's sockets with a code; without one, the connection just breaks. */
  drop(code?: number): void;
  /** Asks to reconnect (opcode 7). */
  reconnect(): void;
  /** Ends the sessions (opcode 9): resumable or, as usual, not. */
  invalidSession(resumable?: boolean): void;
  /** Asks for a heartbeat at once (opcode 1). */
  askHeartbeat(): void;
  /** Heartbeats go unanswered from now on, or are answered again. */
  deafen(deaf?: boolean): void;
  /** Nothing answers any more: REST and sockets refuse connections; sessions are forgotten if told. */
  down(more?: { readonly forget?: boolean }): Promise<void>;
  /** Back at the same address. */
  up(): Promise<void>;
  /** How many sockets are open. */
  count(): number;
  close(): Promise<void>;
};

export function createLine(server: Server, gateway: Gateway, sockets: Sockets): Line {
  let port = 0;
  const each = (act: (connection: Parameters<typeof sendTo>[0]) => void): void => {
    for (const connection of [...sockets.open]) act(connection);
  };
  const down = async ({ forget = false } = {}): Promise<void> => {
    each((connection) => {
      connection.stopTimers();
      connection.closedHere = true;
      connection.socket.terminate();
    });
    if (forget) gateway.sessions.clear();
    if (!server.listening) return;
    const closed = once(server, "close");
    server.close();
    // One that was just being accepted is cut as well.
    const cutting = setInterval(() => server.closeAllConnections(), 5);
    server.closeAllConnections();
    await closed;
    clearInterval(cutting);
  };
  return {
    drop(code) {
      each((connection) => {
        connection.closedHere = true;
        if (code === undefined) connection.socket.terminate();
        else closeConnection(connection, code);
      });
    },
    reconnect: () => each((connection) => sendTo(connection, { op: Op.Reconnect, d: null })),
    invalidSession(resumable = false) {
      each((connection) => {
        if (!resumable && connection.session !== undefined)
          gateway.sessions.delete(connection.session.id);
        sendTo(connection, { op: Op.InvalidSession, d: resumable });
      });
    },
    askHeartbeat: () => each((connection) => sendTo(connection, { op: Op.Heartbeat, d: null })),
    deafen(deaf = true) {
      gateway.deaf = deaf;
    },
    down,
    async up() {
      if (server.listening) return;
      server.listen(port, "127.0.0.1");
      await once(server, "listening");
      port = (server.address() as AddressInfo).port;
    },
    count: () => sockets.open.size,
    close: () => down({ forget: true }),
  };
}
