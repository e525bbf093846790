import { describe, expect, it } from 'vitest';
import { flowFrom, flowText } from './shipped-flow.ts';

const flowOf = (steps: string): string => `flow: try\nlooks-again: yes\nsteps:\n${steps}\n  - step: result\n    result: final\n`;
const sealsIn = (text: string): Map<string, string> => new Map(flowFrom(text).steps.map(({ id, seal }) => [id, seal]));
const sealOf = (text: string, id = 'a'): string => sealsIn(text).get(id) ?? '';

const region = flowOf(`  - step: a
    mark:
      - grunting
      - tone: floppy
      - { then: spots, otherwise: { pustule-count: 0, cord-redness: 0 } }
      - then: lump
    more: [restless, then: spots]
    leaves-open: [grunting, tone]
  - step: spots
    read: [pustule-count]
  - step: lump
    read: [scalp-swelling]
    options: { scalp-swelling: [crosses-seams, stops-at-seams] }`);

describe('the seal of a region', () => {
  it('is there for regions, and for nothing else', () => {
    for (const step of flowFrom(flowText).steps) expect(step.seal !== '', step.id).toBe(step.kind === 'mark');
  });

  it('is its own: no two regions of the examination share one', () => {
    const seals = [...sealsIn(flowText).values()].filter((seal) => seal !== '');
    expect(new Set(seals).size).toBe(seals.length);
  });

  it.each([
    [
      'the order of the signs',
      (text: string) => text.replace('      - grunting\n      - tone: floppy\n', '      - tone: floppy\n      - grunting\n'),
    ],
    ['the order of what opens the same step', (text: string) => text.replace('[restless, then: spots]', '[then: spots, restless]')],
    [
      'the order of values',
      (text: string) => text.replace('{ pustule-count: 0, cord-redness: 0 }', '{ cord-redness: 0, pustule-count: 0 }'),
    ],
    ['the order of what is left open', (text: string) => text.replace('[grunting, tone]', '[tone, grunting]')],
    ['the order of options', (text: string) => text.replace('[crosses-seams, stops-at-seams]', '[stops-at-seams, crosses-seams]')],
    ['a comment', (text: string) => text.replace('      - grunting', '      # heard without a stethoscope\n      - grunting')],
    ['how a sign is written', (text: string) => text.replace('      - grunting', '      - grunting: true')],
    ['a step before it', (text: string) => text.replace('steps:\n', 'steps:\n  - step: first\n    mark: [pale]\n')],
    ['its guard', (text: string) => text.replace('  - step: a\n', '  - step: a\n    only-if: sex is girl\n')],
  ])('outlasts an edit of %s', (_what, edit) => {
    expect(edit(region)).not.toBe(region);
    expect(sealOf(edit(region))).toBe(sealOf(region));
  });

  it.each([
    ['a sign', (text: string) => text.replace('      - grunting\n', '      - grunting\n      - nasal-flaring\n')],
    ['another option', (text: string) => text.replace('      - tone: floppy\n', '      - tone: floppy\n      - tone: stiff\n')],
    ['a sign behind 9', (text: string) => text.replace('[restless, ', '[restless, startles, ')],
    [
      'a question that a mark opens',
      (text: string) => text.replace('    read: [pustule-count]', '    read: [pustule-count, cord-redness]'),
    ],
    ['a value that holds otherwise', (text: string) => text.replace('pustule-count: 0, cord', 'pustule-count: 1, cord')],
    ['a finding left open', (text: string) => text.replace('[grunting, tone]', '[grunting]')],
  ])('is broken by an edit of %s, so that the region is asked again', (_what, edit) => {
    expect(edit(region)).not.toBe(region);
    expect(sealOf(edit(region))).not.toBe(sealOf(region));
  });

  it('is broken by a sign that is taken away, and by one that is put behind 9', () => {
    expect(sealOf(region.replace('      - grunting\n', '').replace('[grunting, tone]', '[tone]'))).not.toBe(sealOf(region));
    expect(sealOf(region.replace('      - grunting\n', '').replace('[restless, ', '[restless, grunting, '))).not.toBe(sealOf(region));
  });

  it('of one region is not touched by an edit of another', () => {
    const edited = sealsIn(
      flowText.replace(/^ {6}- startles\n/m, '').replace(/^ {6}- bathed-early\n/m, '      - bathed-early\n      - startles\n'),
    );
    const before = sealsIn(flowText);
    const changed = [...before].filter(([id, seal]) => edited.get(id) !== seal).map(([id]) => id);
    expect(changed).toEqual(['moves', 'moves-more', 'care']);
  });

  it('comes to an end where steps open one another', () => {
    const ring = flowOf('  - step: a\n    mark: [grunting, then: b]\n  - step: b\n    mark: [restless, then: a]');
    expect(sealOf(ring)).not.toBe('');
    expect(sealOf(ring, 'b')).not.toBe(sealOf(ring));
  });
});
