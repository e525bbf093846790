// Takes the labelled values out of a message: T36.8, T 36.8, T:36.8, BW3100, C77. What has no label is left in order.

import type { FindingValue } from '../../clinical/protocol.ts';
import type { Taken } from '../read-answer.ts';
import type { Read, Refusal, Words } from './words.ts';

const letters = /^([\p{L}\p{M}]+)[:=]?(.*)$/u;

/** A label counts only when a value that starts with a digit or a dash follows it. */
export function takeLabelled(
  pieces: readonly string[],
  words: Words,
  read: (of: string, rest: readonly string[]) => Read<FindingValue>,
): { taken: Taken; rest: readonly string[] } {
  const values: Record<string, FindingValue> = {};
  const doubts: Record<string, FindingValue> = {};
  const refusals: Refusal[] = [];
  const rest: string[] = [];
  for (let at = 0; at < pieces.length; ) {
    const piece = pieces[at] ?? '';
    const [, label = '', value = ''] = letters.exec(piece) ?? [];
    const of = words.labels.get(label);
    const following = value === '' ? pieces.slice(at + 1) : [value, ...pieces.slice(at + 1)];
    if (of === undefined || !/^[\d-]/.test(following[0] ?? '')) {
      rest.push(piece);
      at += 1;
      continue;
    }
    const outcome = read(of, following);
    if (outcome.kind === 'read') values[of] = outcome.value;
    if (outcome.kind === 'doubt') doubts[of] = outcome.value;
    if (outcome.kind === 'not-known') values[of] = null;
    if (outcome.kind === 'refused') refusals.push(outcome.reason);
    at += Math.max(1, outcome.used + (value === '' ? 1 : 0));
  }
  return { taken: { values, doubts, refusals }, rest };
}
