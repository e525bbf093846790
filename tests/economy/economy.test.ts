// What an examination costs, in every language that is there: texts, segments, screens and key presses. Airtime is what a
// worker runs out of first; a question that grows by one character too many doubles the price of every examination.

import { afterAll, describe, expect, it } from 'vitest';
import { bindBook } from '../../src/conversation/book.ts';
import { compose } from '../../src/conversation/compose.ts';
import { questionFor } from '../../src/dialog/ask.ts';
import type { Step } from '../../src/dialog/flow.ts';
import { gather } from '../../src/dialog/gather.ts';
import type { Question, Reply } from '../../src/dialog/reply.ts';
import { say } from '../../src/messages/catalogue.ts';
import { measure } from '../../src/messages/segments.ts';
import { published } from '../support/desk.ts';
import { examineNormal, keyPresses, segmentsOf } from './all-normal.ts';

const files = published();
const book = bindBook(files);
const { catalogues } = files;
const languages = [...catalogues.byTag.values()].map(({ tag, alphabet }) => ({ tag, alphabet }));
const mostTexts = 16;
/** Pages of a list of a 16-bit script are turned, each with 99: such a screen holds less than half as much. */
const mostScreens = { 'gsm-7': 16, 'ucs-2': 48 } as const;
/** Segments of a question, and of each reply in an all-normal examination. */
const wholeQuestion = { 'gsm-7': 1, 'ucs-2': 3 } as const;
/** Segments of an explanation: a script of 16 bits holds less than half as much. */
const explanation = { 'gsm-7': 2, 'ucs-2': 5 } as const;

const steps = files.flows
  .flatMap((flow) => flow.steps.map((step) => ({ flow: flow.id, step })))
  .filter(({ step }) => step.kind !== 'result');
const report: Record<string, string | number>[] = [];

afterAll(() => {
  console.table(report);
});

function textOf(question: Question, language: string): string {
  const reply: Reply = { told: [], question, page: 0, ends: false };
  return compose(reply, 'sms', { catalogues, language, screen: { gsm7: 182, ucs2: 70 } }).text;
}

/** Every form that a step's question can have: whole, and with some of its fields answered already. */
function questionsOf(flowId: string, step: Step): Question[] {
  const flow = book.flows.get(flowId);
  const ask = (values: Readonly<Record<string, string | number>>): Question =>
    questionFor(
      step,
      gather(flow === undefined ? [] : [flow], { answers: [{ step: step.id, seal: step.seal, message: 1, values }] }, book.findings, 0),
      book,
    );
  if (step.kind === 'again') {
    const finding = book.findings.get(step.of);
    return [ask({ [step.of]: finding?.kind === 'count' || finding?.kind === 'number' ? finding.high : 0 })];
  }
  if (step.kind !== 'read') return [ask({})];
  const asked = step.fields.filter((field) => !field.optional);
  const subsets = Array.from({ length: 2 ** asked.length - 1 }, (_, bits) => asked.filter((_field, at) => (bits >> at) % 2 === 1));
  return subsets.map((answered) => ask(Object.fromEntries(answered.map(({ of }) => [of, 1]))));
}

describe.each(languages)('in $tag', ({ tag, alphabet }) => {
  it.each(['girl', 'boy'] as const)('a normal %s is examined in few texts each way, and in few screens', async (sex) => {
    const sms = await examineNormal(tag, sex, 'sms');
    const ussd = await examineNormal(tag, sex, 'ussd');
    const replies = sms.exchanges.map(({ reply }) => reply);
    report.push({
      language: tag,
      baby: sex,
      'texts each way': sms.exchanges.length,
      'segments sent': segmentsOf(sms.exchanges.map(({ sent }) => sent)),
      'segments replied': segmentsOf(replies),
      'fullest reply': Math.max(...replies.map((reply) => measure(reply).units)),
      screens: ussd.exchanges.length,
      'key presses': keyPresses(ussd.exchanges),
    });
    expect([sms.isWell, ussd.isWell]).toEqual([true, true]);
    expect(sms.exchanges.length).toBeLessThanOrEqual(mostTexts);
    expect(ussd.exchanges.length).toBeLessThanOrEqual(mostScreens[alphabet]);
    expect(replies.filter((reply) => measure(reply).segments > wholeQuestion[alphabet])).toEqual([]);
  });

  it('every question of every flow, follow-ups and further lists too, is one segment, or three of a script of 16 bits', () => {
    const texts = steps.flatMap(({ flow, step }) =>
      questionsOf(flow, step).map((question) => ({ flow, step: step.id, text: textOf(question, tag) })),
    );
    expect(texts.length).toBeGreaterThan(steps.length);
    expect(
      texts
        .filter(({ text }) => measure(text).segments > wholeQuestion[alphabet])
        .map(({ flow, step, text }) => `${flow}, ${step}, ${measure(text).units}: ${text}`),
    ).toEqual([]);
  });

  it('every explanation is short', () => {
    const said = [...(catalogues.byTag.get(catalogues.base)?.messages.keys() ?? [])]
      .filter((key) => key.startsWith('explain.'))
      .map((key) => ({ key, text: say(catalogues, tag, key) }));
    expect(said.length).toBeGreaterThan(10);
    expect(
      said
        .filter(({ text }) => measure(text).segments > explanation[measure(text).alphabet])
        .map(({ key, text }) => `${key}, ${measure(text).units}: ${text}`),
    ).toEqual([]);
  });

  it('no question offers two options that read the same', () => {
    const alike = steps.flatMap(({ flow, step }) =>
      questionsOf(flow, step).flatMap((question) => {
        const labels = question.options.map(({ label }) => say(catalogues, tag, label.key, label.values).trim().toLowerCase());
        return labels.filter((label, at) => label === '' || labels.indexOf(label) !== at).map((label) => `${flow}, ${step.id}: "${label}"`);
      }),
    );
    expect(alike).toEqual([]);
  });
});
