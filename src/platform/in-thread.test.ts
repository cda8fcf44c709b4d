import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, test } from "vitest";
import { inThread } from "./in-thread.ts";

/** Runs a few lines as a thread of their own. */
async function run(
  lines: string,
  limits: { readonly memory?: number; readonly patience?: number },
): Promise<unknown> {
  const folder = await mkdtemp(join(tmpdir(), "wetside-thread-"));
  const path = join(folder, "thread.mjs");
  const told = 'import { parentPort } from "node:worker_threads";\n';
  await writeFile(path, `${told}${lines}`);
  const job = { module: pathToFileURL(path), given: undefined, what: "it", ...limits };
  const beyond = () => new RangeError("beyond its limits");
  return inThread<unknown, unknown>({ ...job, beyond, hear: (made) => made }).finally(() =>
    rm(folder, { recursive: true }),
  );
}

test("what a thread tells is what comes of it", async () => {
  expect(await run("parentPort.postMessage(7);", { memory: 32 })).toBe(7);
});

test("a thread that would hold more than it may ends, and the process does not", async () => {
  const many = JSON.stringify(Array.from({ length: 1000 }, () => ({})));
  const greedy = `const all = []; for (;;) all.push(JSON.parse('${many}'));`;
  await expect(run(greedy, { memory: 32 })).rejects.toThrow("beyond its limits");
});

test("a thread that never ends is given up", async () => {
  await expect(run("for (;;);", { patience: 200 })).rejects.toThrow("beyond its limits");
});

test("a fault of its own stays one", async () => {
  await expect(run('throw new Error("broken")', { memory: 32 })).rejects.toThrow("broken");
});
