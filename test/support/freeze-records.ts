/**
 * Freezes what today's program stores: `node test/support/freeze-records.ts DIR`. Done once for each
 * version of the records, before the version after it is made; what is frozen is never made again.
 */
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { backUp } from "../../src/backup/back-up.ts";
import type { Front, Place } from "../../src/channels/discord/directory/record.ts";
import { newPlace, recordSchema } from "../../src/channels/discord/directory/record.ts";
import { openFileStore } from "../../src/store/file-store.ts";
import { migrate } from "../../src/store/migrations/migrate.ts";
import { eveningScript } from "./evening-script.ts";
import { runProgram } from "./program.ts";

const [into = ""] = process.argv.slice(2);
const folder = await mkdtemp(join(tmpdir(), "wetside-freeze-"));
const simulate = ["--simulate", "2026-11-28T19:30:00Z", "--zone", "Europe/Lisbon"];
const lines = [
  ...eveningScript.map((line) => line.replace(/^@ *(\d+)$/, "@+$1s")),
  // Enough runs that the oldest stand in files of their own.
  ...Array.from({ length: 10 }, () => [
    "start blix for 1 minute tank quick",
    "ready",
    "in",
    "@+2m",
  ]),
  "note the last of the evening",
].flat();
await runProgram(["--data", folder, ...simulate], lines);

/** An invented club. */
const id = (digit: number): string => String(digit).repeat(18);
const where = { guild: id(1), channel: id(2), channelName: "wet-bench", openedBy: id(3) };
const place: Place = {
  ...newPlace(where),
  members: {
    [id(3)]: { name: "Ines", listed: true, reminders: "dm" },
    [id(4)]: { name: "Rui", listed: false, reminders: "channel" },
  },
  role: id(5),
  groupChannel: id(6),
  owners: { r1: id(3) },
  statuses: { r1: { message: id(7), channel: id(2), at: 1_800_000_000_000 } },
  shared: ["r0"],
  nextPost: 4,
};
const front: Front = {
  schemaVersion: 1,
  kind: "front",
  registered: { application: id(8), commands: "abc" },
  people: { [id(3)]: { bench: `c${id(2)}` } },
};
const directory = await openFileStore<Place | Front>({
  directory: join(folder, "discord"),
  schema: recordSchema,
  migrate: (record) => migrate(record, []),
});
for (const [name, record] of [
  [`c${id(2)}`, place],
  ["front", front],
] as const) {
  await directory.load(name);
  await directory.commit(name, undefined, record);
}
await directory.close();
// Pictures are made again from what is stored.
await rm(join(folder, "pictures"), { recursive: true, force: true });
await backUp(folder, into);
await rm(folder, { recursive: true, force: true });
