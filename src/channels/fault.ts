// What of a thrown error may be logged. The message is left out: a database writes the refused row into it, and with it
// a number or the words of a text. Next: mask.ts.

export interface Fault {
  readonly name: string;
  readonly code?: string;
  /** Where it was thrown, innermost first. */
  readonly frames: readonly string[];
}

const FRAME = /^\s+at /;
const FRAMES_KEPT = 12;

/** The name, the code and the place of an error; never its message. */
export function describeFault(error: unknown): Fault {
  if (!(error instanceof Error)) return { name: typeof error, frames: [] };
  const lines = error.stack?.split('\n') ?? [];
  const frames = lines.filter((line) => FRAME.test(line)).slice(0, FRAMES_KEPT);
  const code = 'code' in error && typeof error.code === 'string' ? error.code : undefined;
  return { name: error.name, ...(code === undefined ? {} : { code }), frames: frames.map((frame) => frame.trim()) };
}
