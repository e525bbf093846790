// What the texts of referrals and follow-up cost, in every language, with long names of places and people and the longest
// answers: two segments at most, and one for what is asked most often. Segments: 3GPP TS 23.038, as src/messages counts them.

import { describe, expect, it } from 'vitest';
import { textTo } from '../../src/conversation/follow-up-parts.ts';
import { questionText } from '../../src/conversation/referrals/ask-referral.ts';
import { referralQuestion, refusalReasons } from '../../src/dialog/referral-question.ts';
import { say } from '../../src/dialog/reply.ts';
import { measure } from '../../src/messages/segments.ts';
import { parts } from './ward.ts';

/** A script of 16 bits holds less than half as much in a segment. */
const most = { 'gsm-7': 2, 'ucs-2': 4 } as const;
const states = ['advised', 'refused', 'left', 'arrived'] as const;
const messages = [
  ...['sure', 'refused-nurse', 'refused-still', 'refusal-visit', 'refused-advice', 'arrived-worker', 'not-arrived-worker', 'home-worker'],
  ...['unconfirmed.left', 'unconfirmed.arrived', 'unconfirmed.outcome', 'died-told', 'died-worker', 'moved-nurse', 'noted'],
].map((key) => `referral.${key}`);
const reminders = ['recheck', 'recheck-again', 'contact', 'contact-again', 'handed-over'].map((key) => `follow-up.${key}`);

/** Of the demonstration district, the longest; a baby of which little is known, at an age with two digits. */
const values = {
  code: '7FK',
  baby: say('baby.with-age', { who: say('baby.not-known'), age: say('time.hours', { count: 71 }) }),
  facility: 'Tamarind Dispensary',
  place: say('verbatim', { text: 'Baobab District Hospital' }),
  ...{ phone: '+254700555021', worker: '+254700555101', by: 'Nurse Wanjiru', name: 'Akinyi Odera' },
  ...{ time: '26/11 0430', from: '27/11', to: '28/11', digit: 1, digits: '44' },
  what: [say('classifications.moderate-hypothermia')],
  answer: say('referral.news.still-in-care'),
};

/** A question lists nothing. */
const { what: _what, ...asking } = values;

function text(language: string, key: string, reason: string): string {
  const because = say('referral.because', { reason: say(`referral.reason.${reason}`) });
  return textTo({ phone: '', language }, { key: '', at: 0, urgent: false }, key, { ...values, reason: because }, parts).text;
}

describe.each(['en', 'fr', 'sw', 'hi'])('in %s', (language) => {
  it.each(states)('the question of a referral that is %s fits', (state) => {
    const question = referralQuestion(state);
    const asked = question === null ? '' : questionText(question, asking, { language }, parts);
    const { alphabet, segments } = measure(asked);
    expect(segments, asked).toBeLessThanOrEqual(most[alphabet]);
  });

  it.each([...messages, ...reminders])('%s fits', (key) => {
    for (const reason of refusalReasons) {
      const said = text(language, key, reason);
      const { alphabet, segments } = measure(said);
      expect(segments, said).toBeLessThanOrEqual(most[alphabet]);
      expect(said).not.toMatch(/[{}]|\b(place|phone|digit)\b/);
    }
  });
});

describe('in one segment', () => {
  it.each(['en', 'fr', 'sw'])('are the questions whether the baby left and arrived, and every reminder, in %s', (language) => {
    const asked = (['advised', 'left'] as const).map((state) => {
      const question = referralQuestion(state);
      return question === null ? '' : questionText(question, asking, { language }, parts);
    });
    for (const one of [...asked, ...reminders.map((key) => text(language, key, 'cost'))]) expect(measure(one).segments, one).toBe(1);
  });
});
