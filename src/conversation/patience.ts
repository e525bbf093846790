// Waits for a store only so long: whoever texts gets an answer while a store is away or hangs. What was begun may still be
// done; its entries have keys, so doing it again is harmless.

/** What a wait that was given up, or a store that failed, comes to. */
export interface Away {
  readonly kind: 'away';
  readonly fault: string;
}

export async function within<T>(
  milliseconds: number,
  work: Promise<T>,
  pause: (milliseconds: number) => Promise<void>,
): Promise<{ readonly kind: 'had'; readonly value: T } | Away> {
  return Promise.race([
    work.then(
      (value) => ({ kind: 'had', value }) as const,
      (error: unknown): Away => ({ kind: 'away', fault: faultName(error) }),
    ),
    pause(milliseconds).then((): Away => ({ kind: 'away', fault: 'too slow' })),
  ]);
}

/** What of a thrown error may be logged beside what was being done: never its message, which may hold a number or a text. */
export function faultName(error: unknown): string {
  return error instanceof Error ? error.name : 'unknown';
}
