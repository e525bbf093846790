// The text that tells a nurse of a baby: who, where, what is wrong, whom to ring and how to take it, in two segments of GSM-7
// with the longest values that each can have.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Case, Interpretation } from '../../../src/clinical/protocol.ts';
import { type AlertNews, alertText } from '../../../src/conversation/alerts/alert-text.ts';
import { bindBook } from '../../../src/conversation/book.ts';
import { type SayableValue, say } from '../../../src/messages/catalogue.ts';
import { toPlain } from '../../../src/messages/gsm7.ts';
import { measure } from '../../../src/messages/segments.ts';
import { published } from '../../support/desk.ts';

const files = await published();
const book = bindBook(files);
const tags = [...files.catalogues.byTag.keys()];
/** Longest E.164, and a facility's name of thirty characters. */
const longPhone = '+254700555101234';
const longName = 'Marula Hill Mission Health Ctr';
/** Two segments of GSM-7; a language of 16 bits needs more for the same news. */
const most = { 'gsm-7': 2, 'ucs-2': 4 } as const;

/** Invented, and long. */
const tried = ['Nurse Wanjiru Kamau', 'Nurse Njeri wa Mwangi', 'Nurse Amina Abdallah', 'Nurse Otieno Onyango', 'Rose Atieno Owuor'];
const noticedAt = Date.parse('2026-11-25T09:35:00+03:00');
const place = { name: longName, zone: 'Africa/Nairobi' };

function alertOf(aCase: Case, changes: Partial<AlertNews> = {}): AlertNews {
  const interpretation = book.interpret(aCase);
  const news = urgentIn(interpretation);
  return { code: '7FK', worker: longPhone, case: aCase, interpretation, news, isUpdate: false, noticedAt, tried: [], ...changes };
}

const urgentIn = (interpretation: Interpretation): string[] =>
  interpretation.classifications.filter((one) => one.urgency === 'urgent').map((one) => one.id);

/** Every sign that there is, each number at its highest: as much as an alert could ever be asked to say. */
const everything: Case = {
  ageHours: 71,
  sex: 'boy',
  gestation: { weeks: 33, days: 6 },
  birthWeightGrams: 1450,
  findings: Object.fromEntries(
    [...book.findings.values()].map((finding) => {
      if (finding.kind === 'sign') return [finding.id, true];
      if (finding.kind === 'choice') return [finding.id, finding.options.at(-1) ?? null];
      return [finding.id, finding.readings > 1 ? [finding.high, finding.high] : finding.high];
    }),
  ),
  unlisted: 'not-assessed',
};

const anySick: fc.Arbitrary<Case> = fc
  .tuple(fc.subarray([...book.findings.values()], { minLength: 1, maxLength: 14 }), fc.nat(71), fc.nat(9))
  .map(([findings, ageHours, pick]) => ({
    ...everything,
    ageHours,
    findings: Object.fromEntries(
      findings.map((finding) => {
        if (finding.kind === 'sign') return [finding.id, true];
        if (finding.kind === 'choice') return [finding.id, finding.options[pick % finding.options.length] ?? null];
        const value = pick % 2 === 0 ? finding.low : finding.high;
        return [finding.id, finding.readings > 1 ? [value] : value];
      }),
    ),
  }));

describe.each(tags)('an alert in %s', (language) => {
  const speak = (tag: string, key: string, values: Readonly<Record<string, SayableValue>>): string =>
    toPlain(say(files.catalogues, tag, key, values));
  const write = (told: AlertNews): string => alertText(told, place, language, { published: { book, followUp: files.followUp }, speak });

  it('that tells of everything at once still fits, with its code, its baby, its facility, and whom to ring', () => {
    for (const isUpdate of [false, true]) {
      const text = write(alertOf(everything, { isUpdate }));
      const { alphabet, segments } = measure(text);
      expect(segments, text).toBeLessThanOrEqual(most[alphabet]);
      expect(text).toContain('7FK');
      expect(text).toContain(longPhone);
      if (!isUpdate) expect(text).toContain(longName);
    }
  });

  it('of any baby fits, and says its code and whom to ring', () => {
    fc.assert(
      fc.property(anySick, fc.boolean(), fc.nat(tried.length), (aCase, isUpdate, asked) => {
        const told = alertOf(aCase, { isUpdate, tried: tried.slice(0, asked) });
        fc.pre(told.news.length > 0);
        const text = write(told);
        const { alphabet, segments } = measure(text);
        expect(segments, text).toBeLessThanOrEqual(most[alphabet]);
        expect(text).toContain('7FK');
        expect(text).toContain(longPhone);
        expect(text).not.toMatch(/undefined|null|NaN|\[object|[{}]| {2}|\. \.|\d\.\d{2}/u);
      }),
      { numRuns: 60 },
    );
  });

  it('of one danger sign has its measures and its history', () => {
    const text = write(
      alertOf({ ...everything, findings: { convulsion: 'in-this-illness', temperature: [36.8], 'respiratory-rate': [44] } }),
    );
    for (const part of ['36', '44', '1450', '33+6']) expect(toAscii(text)).toContain(part);
  });

  it('says it in SBAR order: where, when and why; weeks and weight; measures; whom to ring', () => {
    const findings = { convulsion: 'in-this-illness', temperature: [36.8], 'respiratory-rate': [44] };
    const text = toAscii(write(alertOf({ ...everything, gestation: { weeks: 38, days: 2 }, birthWeightGrams: 2900, findings })));
    const places = ['7FK', longName, '0935', '38+2', '2900', '36', '44', longPhone].map((part) => text.indexOf(part));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBe(0);
  });

  it('to the next person names those who did not answer, the last of them always', () => {
    const sick: Case = { ...everything, findings: { convulsion: 'in-this-illness' } };
    for (const name of tried.slice(0, 2)) expect(write(alertOf(sick, { tried: tried.slice(0, 2) }))).toContain(name);
    expect(write(alertOf(everything, { tried }))).toContain(tried.at(-1));
  });

  it('whose reason cannot be read is an alert all the same', () => {
    const text = write(alertOf({ findings: {} }, { news: ['unreadable'] }));
    expect(text).toMatch(/^7FK .*\?/);
    expect(text).toContain(longPhone);
  });

  it('that is not urgent any more says so without reasons', () => {
    const text = write(alertOf({ ...everything, findings: { temperature: [36.8] } }, { news: [], isUpdate: true }));
    expect(text).toContain('7FK');
    expect(text).not.toMatch(/[:,] *[.,;]/u);
  });
});

/** Digits of any script as ASCII. */
function toAscii(text: string): string {
  return text.replace(/[\u0966-\u096f]/gu, (digit) => String(digit.charCodeAt(0) - 0x966));
}
