// Everything that nurses and workers are told about an alert fits its segments in every language, with long names and numbers.
// The alert itself, which is fitted as it is written, is in alert-text.test.ts; words of people are as long as they write them.

import { describe, expect, it } from 'vitest';
import { say } from '../../../src/messages/catalogue.ts';
import { toPlain } from '../../../src/messages/gsm7.ts';
import { measure } from '../../../src/messages/segments.ts';
import { published } from '../../support/desk.ts';

const { catalogues } = await published();
const base = catalogues.byTag.get(catalogues.base);
const fittedElsewhere = ['alert.text', 'alert.update', 'alert.eased', 'alert.details', 'alert.tried'];
const keys = [...(base?.messages.keys() ?? [])].filter((key) => key.startsWith('alert.') && !fittedElsewhere.includes(key));

/** Invented; the longest number that there is, names of people as long as they come. */
const values = {
  code: '7FK',
  nurse: 'Nurse Amina Abdallah Said',
  tried: 'Nurse Wanjiru Kamau Njoroge',
  phone: '+254700555101234',
  worker: '+254700555101234',
  minutes: 15,
  text: '',
};
const most = { 'gsm-7': 2, 'ucs-2': 4 } as const;

describe.each([...catalogues.byTag.keys()])('in %s', (tag) => {
  it.each(keys)('%s fits, and leaves no place empty', (key) => {
    const text = toPlain(say(catalogues, tag, key, values));
    const { alphabet, segments } = measure(text);
    expect(segments, text).toBeLessThanOrEqual(most[alphabet]);
    expect(text).not.toMatch(/[{}]|undefined/);
  });
});

it('there are such texts', () => {
  expect(keys.length).toBeGreaterThan(15);
});
