import { once } from "node:events";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { expect, test } from "vitest";
import { fetchWithin } from "./fetch-within.ts";

/** A server on the loopback that never tells how long its files are. */
async function withServer(play: (address: string) => Promise<void>): Promise<void> {
  const server = createServer((request, response) => {
    const bytes = Number(/\d+/.exec(request.url ?? "")?.[0] ?? 0);
    if (request.url === "/gone") response.writeHead(404);
    if (request.url === "/away") response.writeHead(302, { location: "/10" });
    for (let left = bytes; left > 0; left -= 100) response.write(Buffer.alloc(Math.min(100, left)));
    response.end();
  });
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  try {
    await play(`http://127.0.0.1:${(server.address() as AddressInfo).port}`);
  } finally {
    server.closeAllConnections();
    server.close();
  }
}

test("no more of a file is taken than may be, whatever it says of itself", () =>
  withServer(async (address) => {
    expect(await fetchWithin(`${address}/1000`, 1000)).toHaveLength(1000);
    expect(await fetchWithin(`${address}/1001`, 1000)).toBe("too-large");
    expect(await fetchWithin(`${address}/3000000`, 1000)).toBe("too-large");
  }));

test("a file that is gone, elsewhere or on this machine is not taken", () =>
  withServer(async (address) => {
    expect(await fetchWithin(`${address}/gone`, 1000)).toBe(undefined);
    await expect(fetchWithin(`${address}/away`, 1000)).rejects.toThrow();
    expect(await fetchWithin("file:///etc/hostname", 1000)).toBe(undefined);
  }));
