// What the workshop counts an edit to cost, for the page of changes: from the shipped files, in its own thread.

import { afterAll, describe, expect, it } from 'vitest';
import { readConfig } from '../../src/cli/config.ts';
import { filesOf } from '../../src/cli/load-published.ts';
import { openWorkshop } from '../../src/cli/workshop.ts';
import { screenLimit } from '../../src/messages/screens.ts';

const outcome = readConfig({ PIPIT_ALLOW_DRAFTS: '1' }, process.cwd());
if (outcome.kind === 'refused') throw new Error(outcome.faults.join('\n'));
const files = filesOf(outcome.config);
const workshop = openWorkshop(screenLimit);
afterAll(() => workshop.end());

function edited(file: string, from: string, to: string): typeof files {
  const changed = files.map((one) => (one.name === file ? { ...one, text: one.text.replace(from, to) } : one));
  expect(changed.some(({ text }, at) => text !== files[at]?.text)).toBe(true);
  return changed;
}
const longer = edited('locales/en/questions.yaml', 'skin: { title: "SKIN.', 'skin: { title: "SKIN, in quiet and good light, chest bare.');

describe('the cost of an edit', () => {
  it('is a segment for words that are too long for one, and one less on the way back', async () => {
    const [dearer, cheaper] = [await workshop.costs(files, longer), await workshop.costs(longer, files)];
    for (const [costs, more] of [
      [dearer, 1],
      [cheaper, -1],
    ] as const) {
      const byText = costs?.find(({ language, channel, way }) => `${language} ${channel} ${way}` === 'en sms all normal');
      expect((byText?.after.segmentsOut ?? 0) - (byText?.before.segmentsOut ?? 0)).toBe(more);
    }
    expect(new Set(dearer?.map(({ language }) => language))).toEqual(new Set(['en']));
  });

  it('is nothing for the same files', async () => {
    expect(await workshop.costs(files, files)).toEqual([]);
  });

  it('is not known of files that cannot be read', async () => {
    expect(await workshop.costs(files, edited('flows/first-day-exam.yaml', 'steps:', 'steps: ['))).toBeNull();
  });

  it('is known of files that check refuses, where they can be read', async () => {
    const refused = edited('flows/protocol/limits.yaml', 'fast-breathing:\n    from: 60', 'fast-breathing:\n    from: 64');
    expect((await workshop.check(refused)).some(({ severity }) => severity === 'error')).toBe(true);
    expect(await workshop.costs(files, refused)).toEqual([]);
  });
}, 120_000);
