import type { IncomingMessage, Server } from "node:http";
import type { Duplex } from "node:stream";
import { GatewayOpcodes as Op } from "discord-api-types/v10";
import { type WebSocket, WebSocketServer } from "ws";
import type { Clock } from "../../../../src/platform/clock.ts";
import type { Traffic } from "../rest/serve.ts";
import type { Gateway } from "./gateway.ts";
import { receive } from "./receive.ts";
import { type Connection, closeConnection, sendTo } from "./session.ts";

export type Sockets = {
  readonly open: Set<Connection>;
  attach(server: Server): void;
};

/** How much later than asked a heartbeat may come (from memory: about half an interval). */
const TOLERANCE = 1.5;

/** Opens the gateway at /gateway, for version 10 in JSON. */
export function createSockets(
  gateway: Gateway,
  traffic: Traffic,
  clock: Clock,
  heartbeatMs: number,
): Sockets {
  const open = new Set<Connection>();
  const sockets = new WebSocketServer({ noServer: true });

  const welcomeSocket = (socket: WebSocket, request: IncomingMessage): void => {
    const query = new URL(request.url ?? "/", "http://stand-in.invalid").searchParams;
    if (query.get("v") !== "10") {
      socket.close(4012, "Invalid API version.");
      return;
    }
    if (query.get("encoding") !== "json" || query.has("compress")) {
      gateway.world.violations.push({ kind: "gateway-encoding", detail: String(query) });
      socket.close(4002, "Encoding not served.");
      return;
    }
    const connection: Connection = {
      socket,
      session: undefined,
      heartbeatAt: gateway.monotonic(),
      stopTimers: () => undefined,
      sends: [],
      closedHere: false,
    };
    open.add(connection);
    watchHeartbeats(connection, clock, heartbeatMs);
    socket.on("message", (data) => {
      traffic.last = performance.now();
      receive(gateway, connection, String(data));
    });
    socket.on("close", (code) => part(connection, code));
    socket.on("error", () => socket.terminate());
    sendTo(connection, { op: Op.Hello, d: { heartbeat_interval: heartbeatMs } });
  };

  /** A session goes with its socket when the client closes it with 1000 or 1001 ("Disconnecting"). */
  const part = (connection: Connection, code: number): void => {
    connection.stopTimers();
    open.delete(connection);
    traffic.last = performance.now();
    const { session } = connection;
    if (session?.connection !== connection) return;
    session.connection = undefined;
    session.lostAt = gateway.world.now();
    if (!connection.closedHere && (code === 1000 || code === 1001))
      gateway.sessions.delete(session.id);
  };

  return {
    open,
    attach(server) {
      server.on("upgrade", (request: IncomingMessage, duplex: Duplex, head: Buffer) => {
        if (!request.url?.startsWith("/gateway")) {
          gateway.world.violations.push({ kind: "unknown-route", detail: request.url ?? "" });
          duplex.destroy();
          return;
        }
        sockets.handleUpgrade(request, duplex, head, (socket) => welcomeSocket(socket, request));
      });
    },
  };
}

/** Without heartbeats a socket is closed, to be resumed ("Sending Heartbeats"; 4009 is from memory). */
function watchHeartbeats(connection: Connection, clock: Clock, heartbeatMs: number): void {
  const look = (): void => {
    if (clock.monotonic() - connection.heartbeatAt > heartbeatMs * TOLERANCE)
      closeConnection(connection, 4009, "Session timed out.");
    else connection.stopTimers = clock.setTimer(heartbeatMs / 2, look);
  };
  connection.stopTimers = clock.setTimer(heartbeatMs / 2, look);
}
