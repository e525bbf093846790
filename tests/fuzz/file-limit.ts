// How long a file that is wrong may take: a file as it ships may take longer than a turn may, and one made wrong five times as long.

import { processorSeconds } from '../bench/processor-time.ts';
import { usualLimitMilliseconds } from './target.ts';

const tries = 5;
const times = 5;

/** Takes  read: reads the file as it ships. Returns  milliseconds, no less than the usual limit. */
export function fileLimit(read: () => void): number {
  const quickest = Math.min(
    ...Array.from({ length: tries }, () => {
      const from = processorSeconds();
      read();
      return (processorSeconds() - from) * 1000;
    }),
  );
  return Math.max(usualLimitMilliseconds, Math.round(times * quickest));
}
