import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { type Clock, systemClock } from "../../../src/platform/clock.ts";
import { createFaults, type Faults } from "./faults.ts";
import { announce } from "./gateway/announce.ts";
import type { Gateway, Identified } from "./gateway/gateway.ts";
import { createSockets } from "./gateway/serve.ts";
import { createLine, type Line } from "./line.ts";
import { createMischief, type Mischief } from "./mischief.ts";
import { overdue } from "./overdue.ts";
import { type AppHandle, type ApplicationSpec, createApplication } from "./people/application.ts";
import { type ChannelHandle, channelHandle } from "./people/channel-handle.ts";
import { announceGuild, foundGuild, makeUser } from "./people/found-guild.ts";
import { type GuildHandle, guildHandle } from "./people/guild-handle.ts";
import type { GuildSpec } from "./people/guild-spec.ts";
import { type Person, person } from "./people/person.ts";
import type { Desk, Logged } from "./rest/answer.ts";
import { createBuckets } from "./rest/buckets.ts";
import { createInvalidRequests } from "./rest/invalid-requests.ts";
import { routes } from "./rest/routes.ts";
import { serveRest, type Traffic } from "./rest/serve.ts";
import { createSettled, until } from "./settled.ts";
import { createIds, createServiceTime } from "./time-and-ids.ts";
import { createVoiceMischief, type VoiceMischief } from "./voice-mischief.ts";
import { type Application, createWorld, type Violation } from "./world.ts";

export type StandInSpec = {
  /** The service's time goes by this one: ages of interactions, dates, ids. */
  readonly clock?: Clock;
  /**
   * How long a second of the service's network lasts, in seconds: 1 as the real one, 0.05 for rate
   * limits and identify spacing twenty times as quick. It runs in real time, since the client's
   * queue does; the headers tell the shorter windows honestly.
   */
  readonly pace?: number;
  /**
   * By which clock rate limits' windows go, at `pace`: real time when left out. A client that waits
   * by the fake clock wants its limits on that clock too.
   */
  readonly limitsClock?: Clock;
  /** What Hello asks for, in real ms. */
  readonly heartbeatMs?: number;
  /** How many invalid requests in ten minutes shut the bot out; 10,000 when left out. */
  readonly invalidLimit?: number;
};

export type StandIn = Mischief & {
  /** For DISCORD_API. */
  readonly apiUrl: string;
  /** The service's time, Unix ms. */
  now(): number;
  application(spec: ApplicationSpec): AppHandle;
  /** Founds a guild; the applications there are by then are in it, unless told otherwise. */
  guild(spec: GuildSpec): GuildHandle;
  /** Somebody by name or id; who is not in any guild yet is made. */
  member(name: string): Person;
  channel(idOrName: string): ChannelHandle;
  readonly faults: Faults;
  readonly socket: Line;
  readonly voice: VoiceMischief;
  /** All traffic is quiet: nothing under way, nothing waiting for an acknowledgement. */
  settled(): Promise<void>;
  /** Waits in real time, ten seconds at most, until something is so. */
  until(holds: () => boolean, what?: string): Promise<void>;
  /** What the bot did wrong; empty at the end of a good test. */
  readonly violations: readonly Violation[];
  /** Takes the violations out, for a test that wanted them. */
  takeViolations(): Violation[];
  readonly requests: readonly Logged[];
  readonly identifies: readonly Identified[];
  /** 401, 403 and 429 of the last ten minutes. */
  invalidRequests(): number;
  close(): Promise<void>;
};

/** Starts a stand-in of the chat service on 127.0.0.1, at a port of its own. */
export async function startStandIn(spec: StandInSpec = {}): Promise<StandIn> {
  const { clock = systemClock, pace = 1, heartbeatMs = 41_250, invalidLimit = 10_000 } = spec;
  const { limitsClock = systemClock } = spec;
  const now = createServiceTime(clock);
  const world = createWorld(now, createIds(now));
  const hosts = { attachments: "", gateway: "" };
  const traffic: Traffic = { open: 0, last: performance.now() };
  const faults = createFaults();
  const invalid = createInvalidRequests(now, invalidLimit);
  const desk: Desk = {
    world,
    hosts,
    routes,
    buckets: createBuckets(limitsClock, pace),
    faults,
    invalid,
    pace: systemClock,
    requests: [],
  };
  const gateway: Gateway = {
    world,
    hosts,
    sessions: new Map(),
    identifies: [],
    spacingMs: 5000 * pace,
    sendWindowMs: 60_000 * pace,
    deaf: false,
    monotonic: () => performance.now(),
  };
  world.announce = (event) => {
    traffic.last = performance.now();
    return announce(gateway.sessions.values(), event);
  };
  const sockets = createSockets(gateway, traffic, systemClock, heartbeatMs);
  const server = createServer(serveRest(desk, traffic));
  sockets.attach(server);
  const line = createLine(server, gateway, sockets);
  await line.up();
  const { port } = server.address() as AddressInfo;
  hosts.attachments = `http://127.0.0.1:${port}`;
  hosts.gateway = `ws://127.0.0.1:${port}/gateway`;

  const onlyApplication = (): Application => {
    const [first] = world.applications.values();
    if (first === undefined) throw new Error("No application yet");
    return first;
  };
  const surroundings = { world, hosts, application: onlyApplication };
  const late = new Set<string>();

  return {
    ...createMischief(world, gateway, sockets),
    apiUrl: `http://127.0.0.1:${port}/api`,
    now,
    application: (wanted) => createApplication(world, wanted),
    guild(wanted) {
      const guild = foundGuild(world, wanted);
      announceGuild(world, guild);
      return guildHandle(surroundings, guild);
    },
    member(name) {
      const user = [...world.users.values()].find(
        (one) => one.id === name || (!one.bot && one.name === name),
      );
      return person(surroundings, user ?? makeUser(world, name));
    },
    channel(wanted) {
      const channel = [...world.channels.values()].find(
        ({ id, name }) => id === wanted || name === wanted,
      );
      if (channel === undefined) throw new Error(`No channel ${wanted}`);
      return channelHandle(world, channel);
    },
    faults,
    socket: line,
    voice: createVoiceMischief(world, gateway),
    settled: createSettled(world, traffic),
    until,
    get violations() {
      return [...world.violations, ...overdue(world, late)];
    },
    takeViolations() {
      const found = [...world.violations, ...overdue(world, late)];
      for (const { detail } of overdue(world, late)) late.add(detail);
      world.violations.length = 0;
      return found;
    },
    requests: desk.requests,
    identifies: gateway.identifies,
    invalidRequests: () => invalid.count(),
    close: () => line.close(),
  };
}
