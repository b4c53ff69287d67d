// What the compiler's module looks like; build/wasm/engine.js, which runs the bytes of club.wasm too.
declare module "engine-module" {
  export interface EngineModule {
    _malloc(size: number): number;
    _free(at: number): void;
    _starter_plan_answer(request: number, requestSize: number, plan: number, planSize: number): number;
    /** All memory; another array whenever memory has grown. */
    HEAPU8: Uint8Array;
  }
  export default function create(options: { wasmBinary: ArrayBuffer | Uint8Array }): Promise<EngineModule>;
}
