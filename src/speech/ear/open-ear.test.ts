import { expect, test } from "vitest";
import type { EarEvent } from "./listener.ts";
import { openEar } from "./open-ear.ts";

const worker = new URL("../../../test/speech/stand-ins/faulty-ear.ts", import.meta.url);
const names = { bottle: ["acorn"], tank: [], sheet: [], thermometer: [] };

/** An ear whose events are waited for one by one. */
function listening(command = "fine", now: () => number = () => performance.now()) {
  const events: EarEvent[] = [];
  const waiting: (() => void)[] = [];
  const ear = openEar({
    engine: { kind: "program", command: [command] },
    form: { rate: 16_000, channels: 1 },
    worker,
    now,
    tell: (event) => {
      events.push(event);
      for (const done of waiting.splice(0)) done();
    },
  });
  const until = async (count: number): Promise<readonly EarEvent[]> => {
    while (events.length < count) await new Promise<void>((done) => waiting.push(done));
    return events;
  };
  return { ear, until, events };
}

const order = (what: number): Int16Array => Int16Array.of(what, 0);

test.each([
  ["throws", 1],
  ["ends", 2],
])("a thread that %s is begun again, says so, and knows the names", async (_, what) => {
  const { ear, until } = listening();
  ear.names(names);
  await until(1);
  ear.feed(order(what), 0);
  const events = await until(3);
  expect(events.map(({ kind }) => kind)).toEqual(["ready", "fault", "ready"]);
  expect(events[1]).toMatchObject({ gone: false, line: expect.stringContaining("starts again") });
  await ear.close();
});

test("a thread that cannot live is given up after five times, with the reason", async () => {
  const { ear, until } = listening("broken");
  const events = await until(5);
  expect(events.at(-1)).toMatchObject({ kind: "fault", gone: true });
  expect(JSON.stringify(events.at(-1))).toContain("the model is not there");
  ear.feed(order(0), 0);
  ear.press();
  await ear.close();
});

test("sound it cannot keep up with is dropped, not heaped up", async () => {
  const { ear, until } = listening();
  ear.names(names);
  await until(1);
  const posted: unknown[] = [];
  ear.feed(order(3), 0);
  for (let at = 0; at < 5000; at += 1) posted.push(ear.feed(order(0), at));
  await ear.close();
  expect(posted.length).toBe(5000);
});
