// What is said of edits of the shipped files: where, in what order, and of which babies. Each kind of edit has a row in
// changes-of-questions.test.ts or changes-of-protocol.test.ts; that nothing goes unsaid is changes-complete.test.ts.

import { describe, expect, it } from 'vitest';
import { kinds } from '../../src/authoring/changes/change.ts';
import { changesBetween } from '../../src/authoring/changes/changes-between.ts';
import { type Edit, edition, shipped, withFiles, without } from './changed-files.ts';

const flow = 'flows/first-day-exam.yaml';
const protocol = 'flows/protocol';
const chart = `${protocol}/classifications`;

describe('what is said of an edit', () => {
  it('is nothing when there is none', () => {
    expect(changesBetween(shipped, shipped)).toEqual([]);
    expect(changesBetween(shipped, edition())).toEqual([]);
  });

  it('tells a language that was taken out, and one that was added', () => {
    const swahili = (file: string): boolean => file.startsWith('locales/sw/');
    expect(changesBetween(shipped, without(swahili))).toEqual([
      { kind: 'language-removed', values: { language: 'sw' }, file: 'locales/sw/advice.yaml', line: 1, edition: 'before' },
    ]);
    expect(changesBetween(without(swahili), shipped).map(({ kind }) => kind)).toEqual(['language-added']);
  });

  it('tells a flow that was taken out, and one that was added', () => {
    const text = 'flow: cry\nlooks-again: yes\nsteps:\n  - step: result\n    result: final\n';
    expect(changesBetween(shipped, withFiles({ name: 'flows/cry.yaml', text })).map(({ kind }) => kind)).toEqual(['flow-added']);
    expect(changesBetween(withFiles({ name: 'flows/cry.yaml', text }), shipped).map(({ kind }) => kind)).toEqual(['flow-removed']);
  });

  it('points at the line: of what is there, in the edited file; of what was taken out, in the one before', () => {
    const lineOf = (text: string | undefined, part: string): number => text?.slice(0, text.indexOf(part)).split('\n').length ?? 0;
    const shippedText = shipped.sources.find(({ name }) => name === flow)?.text;
    const edited = edition(
      [flow, 'flow: first-day-exam\n', 'flow: first-day-exam\n\n\n'],
      [flow, '      - startles\n', ''],
      [flow, 'card?', 'card'],
    );
    const places = changesBetween(shipped, edited).map(({ kind, line, edition: of }) => [kind, of, line]);
    const editedText = edited.sources.find(({ name }) => name === flow)?.text;
    expect(places).toEqual([
      ['mark-removed', 'before', lineOf(shippedText, '- startles')],
      ['field-now-needed', 'after', lineOf(editedText, '- step: who')],
      ['asked-again', 'after', lineOf(editedText, '- step: moves')],
    ]);
  });
});

describe('what an edit does to babies', () => {
  it('comes first, with the reference cases that come out otherwise', () => {
    const [first, second, third] = changesBetween(
      shipped,
      edition([`${chart}/30-breathing-and-heart.yaml`, '{ urgent: grunting', '{ refer: grunting']),
    );
    expect(first).toMatchObject({ kind: 'babies-less-urgent', values: { count: 1, from: 'urgent', to: 'refer', cases: 'grunting' } });
    expect(first?.file).toBe('flows/reference-cases/breathing-and-heart.yaml');
    expect(second).toMatchObject({ kind: 'babies-told-otherwise', values: { from: 'urgent', to: 'urgent' } });
    expect(third?.kind).toBe('rule-less-urgent');
  });

  it('is told when they become more urgent', () => {
    const edit: Edit = [`${protocol}/limits.yaml`, 'from: 38.0', 'from: 37.9'];
    const rises = changesBetween(edition(edit), shipped).filter(({ kind }) => kind.startsWith('babies-'));
    const falls = changesBetween(shipped, edition(edit)).filter(({ kind }) => kind.startsWith('babies-'));
    const flipped = (kind: string): string =>
      ({ 'babies-more-urgent': 'babies-less-urgent', 'babies-less-urgent': 'babies-more-urgent' })[kind] ?? kind;
    expect(falls.some(({ kind }) => kind === 'babies-more-urgent')).toBe(true);
    expect(rises.map(({ kind, values }) => [flipped(kind), values.cases]).sort()).toEqual(
      falls.map(({ kind, values }) => [kind, values.cases]).sort(),
    );
  });

  it('counts a case that the edit took out', () => {
    const rule: Edit = [`${chart}/30-breathing-and-heart.yaml`, '{ urgent: grunting', '{ refer: grunting'];
    const taken: Edit = ['flows/reference-cases/breathing-and-heart.yaml', /\n {2}- id: grunting\n(?: {4}[^\n]*\n)+/, '\n'];
    const changes = changesBetween(shipped, edition(rule, taken));
    expect(changes[0]).toMatchObject({ kind: 'babies-less-urgent', values: { cases: 'grunting' } });
    expect(changes.map(({ kind }) => kind)).toContain('case-removed');
  });
});

it('stands in the order of what it can do to a baby', () => {
  const edited = edition(
    [flow, '      - startles\n', ''],
    ['locales/en/signs.yaml', 'foul waters', 'bad waters'],
    [`${protocol}/limits.yaml`, 'from: 38.0', 'from: 38.5'],
  );
  const places = changesBetween(shipped, edited).map(({ kind }) => kinds.indexOf(kind));
  expect(places.length).toBeGreaterThan(4);
  expect(places).toEqual([...places].sort((a, b) => a - b));
});
