declare module "verovio/esm" {
  /** As far as it is used here. */
  export class VerovioToolkit {
    constructor(module: object);
    setOptions(options: Record<string, unknown>): void;
    loadData(music: string): boolean;
    getPageCount(): number;
    renderToSVG(page: number): string;
  }
}
declare module "verovio/wasm?url" {
  const address: string;
  export default address;
}
