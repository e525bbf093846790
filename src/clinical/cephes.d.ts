// cephes brings types for CommonJS only: its "exports" names no types for the ES module, so the compiler finds none.
// What this project calls, and no more. Remove when the package maps its types.

declare module 'cephes' {
  /** Resolves once the WebAssembly is ready; every function throws before that. */
  export const compiled: Promise<void>;
  /** The regularised incomplete beta function I_x(a, b). */
  export function incbet(a: number, b: number, x: number): number;
  /** The x at which I_x(a, b) is y. */
  export function incbi(a: number, b: number, y: number): number;
  /** The standard normal distribution below z. */
  export function ndtr(z: number): number;
  /** The z below which this share of the standard normal distribution lies; throws at 0 and 1. */
  export function ndtri(share: number): number;
}
