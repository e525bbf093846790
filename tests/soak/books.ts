// The books of a soak: what the workers read against what the register holds and what the gateway took. Next: run.ts.

import { textReference } from '../../src/conversation/text-reference.ts';
import type { Stack } from '../support/end-to-end-stack.ts';
import type { Driven } from './drivers.ts';

export interface Books {
  readonly examinations: number;
  readonly alerts: number;
  readonly texts: number;
  readonly textsTwice: number;
  /** What does not balance. */
  readonly wrong: readonly string[];
}

const patienceMilliseconds = 120_000;

export async function balance(stack: Stack, driven: readonly Driven[]): Promise<Books> {
  const { register, gateway } = stack;
  const wrong = driven.flatMap((one) => one.wrong.map((reply) => `${one.phone} read at the end: ${reply}`));
  const ended = Date.now();
  const isSettled = async (): Promise<boolean> =>
    (await stack.keptEntries()) === 0 &&
    (await register.allTexts()).every(({ urgent, state, at }) => !urgent || state !== 'due' || at > ended);
  // What a killed process had claimed is free again after a minute.
  for (const until = performance.now() + patienceMilliseconds; !(await isSettled()); ) {
    if (performance.now() > until) {
      wrong.push('kept entries or urgent texts are still waiting');
      break;
    }
    await new Promise((resolve) => setTimeout(resolve, 1_000));
  }
  let examinations = 0;
  let alerts = 0;
  for (const { phone, well, urgent } of driven) {
    const [rows, raised] = [await register.examinations(phone), await register.alerts(phone)];
    examinations += rows.length;
    alerts += raised.length;
    if (rows.length !== well + urgent) wrong.push(`${phone}: ${rows.length} examinations for ${well + urgent} results`);
    if (raised.length !== urgent) wrong.push(`${phone}: ${raised.length} alerts for ${urgent} urgent babies`);
  }
  // Nobody takes the alerts of a soak: further people are asked while this is read, by texts that have just been queued.
  const texts = await register.allTexts();
  const sentBefore = Date.now() - patienceMilliseconds;
  const sendings = new Map<string, number>();
  for (const { reference } of gateway.taken) sendings.set(reference, (sendings.get(reference) ?? 0) + 1);
  let textsTwice = 0;
  for (const { key, urgent, state, at } of texts) {
    const times = sendings.get(textReference(key)) ?? 0;
    if (times > 1) textsTwice += 1;
    if (urgent && times === 0 && (state !== 'due' || at < sentBefore)) wrong.push(`an urgent text never went out: ${key}`);
    if (!urgent && times > 1) wrong.push(`a text went out ${times} times: ${key}`);
    if (!urgent && state === 'sent' && times !== 1) wrong.push(`a text that counts as sent went out ${times} times: ${key}`);
  }
  return { examinations, alerts, texts: texts.length, textsTwice, wrong: wrong.slice(0, 20) };
}
