declare module '#engine' {
  interface EngineModule {
    _malloc(size: number): number;
    _free(pointer: number): void;
    _engine_answer(request: number): number;
    UTF8ToString(pointer: number): string;
    stringToUTF8(text: string, pointer: number, size: number): void;
    lengthBytesUTF8(text: string): number;
  }
  interface EngineOptions {
    /** Makes the instance of the code that came by another way, and hands it on. */
    instantiateWasm(imports: WebAssembly.Imports, receive: (instance: WebAssembly.Instance) => void): object;
  }
  export default function create(options: EngineOptions): Promise<EngineModule>;
}
