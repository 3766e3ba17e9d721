declare module '#engine' {
  interface EngineModule {
    _malloc(size: number): number;
    _free(pointer: number): void;
    _engine_answer(request: number): number;
    UTF8ToString(pointer: number): string;
    stringToUTF8(text: string, pointer: number, size: number): void;
    lengthBytesUTF8(text: string): number;
  }
  export default function create(options?: { wasmBinary: ArrayBuffer }): Promise<EngineModule>;
}
