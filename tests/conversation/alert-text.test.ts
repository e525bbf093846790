// The text that tells a nurse of a baby: who, where, what is wrong, whom to ring and how to take it, in two segments of GSM-7
// with the longest values that each can have.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Case, Interpretation } from '../../src/clinical/protocol.ts';
import { alertText } from '../../src/conversation/alert-text.ts';
import { bindBook } from '../../src/conversation/book.ts';
import type { Fact } from '../../src/dialog/facts.ts';
import { measure } from '../../src/messages/segments.ts';
import { published } from '../support/desk.ts';

const files = await published();
const book = bindBook(files);
const tags = [...files.catalogues.byTag.keys()];
/** Longest E.164, and a facility's name of thirty characters. */
const longPhone = '+254700555101234';
const longName = 'Marula Hill Mission Health Ctr';
/** Two segments of GSM-7; a language of 16 bits needs more for the same news. */
const most = { 'gsm-7': 2, 'ucs-2': 4 } as const;

type AlertFact = Extract<Fact, { kind: 'alert' }>;

function alertOf(aCase: Case, changes: Partial<AlertFact> = {}): AlertFact {
  const interpretation = book.interpret(aCase);
  return {
    kind: 'alert',
    key: 'alert:invented',
    isUpdate: false,
    news: urgentIn(interpretation),
    examination: 'invented',
    code: '7FK',
    worker: longPhone,
    facility: 'marula',
    at: 0,
    case: aCase,
    interpretation,
    version: 'invented',
    ...changes,
  };
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
  const write = (fact: AlertFact): string => alertText(fact, longName, book, { catalogues: files.catalogues, language });

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
      fc.property(anySick, fc.boolean(), (aCase, isUpdate) => {
        const fact = alertOf(aCase, { isUpdate });
        fc.pre(fact.news.length > 0);
        const text = write(fact);
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
