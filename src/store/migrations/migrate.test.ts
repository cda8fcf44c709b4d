import { expect, test } from "vitest";
import { StoreError } from "../store-error.ts";
import { type Migration, migrate } from "./migrate.ts";

const steps: readonly Migration[] = [
  ({ tank, ...record }) => ({ ...record, tanks: [tank] }),
  (record) => ({ ...record, zone: "UTC" }),
];

test("each step is made once, in order, from the version found", () => {
  expect(migrate({ schemaVersion: 1, tank: "north" }, steps)).toEqual({
    record: { schemaVersion: 3, tanks: ["north"], zone: "UTC" },
    from: 1,
    to: 3,
  });
  expect(migrate({ schemaVersion: 2, tanks: [] }, steps).record).toEqual({
    schemaVersion: 3,
    tanks: [],
    zone: "UTC",
  });
});

test("a record of today's version is left alone", () => {
  const record = { schemaVersion: 3 };
  expect(migrate(record, steps).record).toBe(record);
  expect(migrate({ schemaVersion: 1 })).toEqual({ record: { schemaVersion: 1 }, from: 1, to: 1 });
});

test.each([
  {
    record: { schemaVersion: 4 },
    kind: "newer-version",
    says: "version 4 of the records; I know up to 3",
  },
  { record: {}, kind: "unreadable", says: "version is missing" },
  { record: { schemaVersion: 0 }, kind: "unreadable", says: "version is missing" },
  { record: null, kind: "unreadable", says: "version is missing" },
  { record: [], kind: "unreadable", says: "version is missing" },
])("$record is refused as $kind", ({ record, kind, says }) => {
  expect(() => migrate(record, steps)).toThrow(StoreError);
  expect(() => migrate(record, steps)).toThrow(says);
  expect(() => migrate(record, steps)).toThrow(expect.objectContaining({ kind }));
});
