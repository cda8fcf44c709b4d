import { expect, test } from "vitest";
import { noise } from "../../../test/speech/noises.ts";
import { createNoisiness } from "./noisiness.ts";

test.each([10, 20, 30])("speech %d dB above the noise is told as that", (db) => {
  const meter = createNoisiness();
  const around = noise("white", 160 * 600, 5).map((sample) => sample * 50);
  const gain = 50 * 10 ** (db / 20);
  for (let frame = 0; frame < 600; frame += 1) {
    const sound = around.slice(frame * 160, frame * 160 + 160);
    const voice = frame >= 400;
    if (frame === 400) meter.begin();
    meter.add(
      voice ? sound.map((one, at) => one + gain * Math.SQRT2 * Math.sin(at / 3)) : sound,
      voice,
    );
  }
  expect(Math.abs(meter.ratio() - db)).toBeLessThan(1.5);
});

test("without any speech nothing stands out", () => {
  const meter = createNoisiness();
  meter.add(new Float32Array(160), false);
  expect(meter.ratio()).toBe(0);
});
