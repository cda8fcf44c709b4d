declare module "@echogarden/rnnoise-wasm" {
  /** The compiled library: functions of rnnoise.h, and the memory they share with us. */
  export type RnnoiseWasm = {
    readonly HEAPF32: Float32Array;
    _malloc(bytes: number): number;
    _free(pointer: number): void;
    _rnnoise_create(model: number): number;
    _rnnoise_destroy(state: number): void;
    _rnnoise_process_frame(state: number, out: number, input: number): number;
  };
  const load: () => Promise<RnnoiseWasm>;
  // biome-ignore lint/style/noDefaultExport: it is how the package exports it.
  export default load;
}
