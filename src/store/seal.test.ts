import fc from "fast-check";
import { expect, test } from "vitest";
import { sealLine, sealSnapshot, unsealLine, unsealSnapshot } from "./seal.ts";

test("what is sealed comes back", () => {
  const law = fc.property(fc.jsonValue(), fc.nat(), (record, sequence) => {
    const plain: unknown = JSON.parse(JSON.stringify(record));
    const snapshot = sealSnapshot({ sequence, record: plain });
    expect(unsealSnapshot(snapshot)).toEqual({ sequence, record: plain });
    const line = {
      sequence: sequence + 1,
      changes: [{ kind: "set" as const, path: ["a", 0], value: plain }],
    };
    expect(unsealLine(sealLine(line).slice(0, -1))).toEqual(line);
    expect(sealLine(line).indexOf("\n")).toBe(sealLine(line).length - 1);
  });
  fc.assert(law);
});

test("any one character changed, added or lost is noticed", () => {
  const text = sealSnapshot({ sequence: 12, record: { volume: 946.35, name: "Ünit" } });
  for (let at = 0; at < text.length; at += 1) {
    for (const other of ["0", "x", " ", "\0", ""]) {
      const changed = text.slice(0, at) + other + text.slice(at + 1);
      if (changed !== text) expect(unsealSnapshot(changed), changed).toBe(undefined);
    }
  }
});

test.each(["", "null", "null\n", "[]\n", "{}\n", "\0\0\0\0", '{"crc":"00000000","record":1}\n'])(
  "%j is no snapshot",
  (text) => {
    expect(unsealSnapshot(text)).toBe(undefined);
  },
);
