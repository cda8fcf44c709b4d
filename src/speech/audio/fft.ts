/** A Fourier transform of one fixed power-of-two size, in place, on separate real and imaginary parts. */
export type Fft = (real: Float32Array, imaginary: Float32Array, inverse?: boolean) => void;

export function createFft(size: number): Fft {
  if (size < 2 || (size & (size - 1)) !== 0) throw new Error(`${size} is no power of two`);
  const cosines = Float64Array.from({ length: size / 2 }, (_, at) =>
    Math.cos((2 * Math.PI * at) / size),
  );
  const sines = Float64Array.from({ length: size / 2 }, (_, at) =>
    Math.sin((2 * Math.PI * at) / size),
  );
  const bits = Math.log2(size);
  const mirrored = Uint32Array.from({ length: size }, (_, at) => {
    let back = 0;
    for (let bit = 0; bit < bits; bit += 1) back |= ((at >> bit) & 1) << (bits - 1 - bit);
    return back;
  });
  return (real, imaginary, inverse = false) => {
    for (let at = 0; at < size; at += 1) {
      const to = mirrored[at] ?? 0;
      if (to <= at) continue;
      [real[at], real[to]] = [real[to] ?? 0, real[at] ?? 0];
      [imaginary[at], imaginary[to]] = [imaginary[to] ?? 0, imaginary[at] ?? 0];
    }
    const sign = inverse ? 1 : -1;
    for (let span = 1; span < size; span *= 2) {
      const stride = size / (2 * span);
      for (let start = 0; start < size; start += 2 * span) {
        for (let at = 0; at < span; at += 1) {
          const cos = cosines[at * stride] ?? 1;
          const sin = sign * (sines[at * stride] ?? 0);
          const low = start + at;
          const high = low + span;
          const re = (real[high] ?? 0) * cos - (imaginary[high] ?? 0) * sin;
          const im = (real[high] ?? 0) * sin + (imaginary[high] ?? 0) * cos;
          real[high] = (real[low] ?? 0) - re;
          imaginary[high] = (imaginary[low] ?? 0) - im;
          real[low] = (real[low] ?? 0) + re;
          imaginary[low] = (imaginary[low] ?? 0) + im;
        }
      }
    }
    if (!inverse) return;
    for (let at = 0; at < size; at += 1) {
      real[at] = (real[at] ?? 0) / size;
      imaginary[at] = (imaginary[at] ?? 0) / size;
    }
  };
}
