// Where the cursor stands in a file that is half written, and what is offered there. The cursor is the bar.

import { describe, expect, it } from 'vitest';
import { schemaFor } from '../../src/authoring/schemas/schema-for.ts';
import { completionSource } from '../../src/console/client/editing/completion.ts';
import { placeAt } from '../../src/console/client/editing/place.ts';

const cursor = (marked: string): [string, number] => [marked.replace('|', ''), marked.indexOf('|')];

describe('the place of the cursor', () => {
  it.each([
    ['a key of the top', 'st|', [], 'either'],
    ['a further key of the top', 'flow: a\nst|', [], 'key'],
    ['a value', 'flow: |', ['flow'], 'value'],
    ['a value that is half typed', 'steps:\n  - step: wh|\n    read: [sex]\n', ['steps', 0, 'step'], 'value'],
    ['an empty item', 'steps:\n  - step: who\n  - |', ['steps', 1], 'either'],
    ['a key of an item', 'steps:\n  - step: who\n    re|\n  - step: b\n', ['steps', 0], 'key'],
    ['a key on an empty line', 'steps:\n  - step: who\n    |\n', ['steps', 0], 'key'],
    ['a key whose colon stands', 'steps:\n  - step: who\n    re|: [sex]\n', ['steps', 0], 'key'],
    ['a list between brackets', 'a:\n  - read: [sex, bo|]\n', ['a', 0, 'read', 1], 'either'],
    ['a key between curly brackets', 'a:\n  - { from: 1, ov| }\n', ['a', 0], 'key'],
    ['a value between curly brackets', 'a: { x: { y: |', ['a', 'x', 'y'], 'value'],
    ['the last word of several', 'a:\n  - only-if: temperature is lo|\n', ['a', 0, 'only-if'], 'value'],
    ['several words in a list', 'a:\n  - temperature i|\n', ['a', 0], 'value'],
  ] as const)('is %s', (_, marked, path, takes) => {
    expect(placeAt(...cursor(marked))).toMatchObject({ path, takes });
  });

  it.each([
    ['a comment', 'a: 1 # whe|'],
    ['a line of comment', '# whe|'],
  ])('is nowhere in %s', (_, marked) => {
    expect(placeAt(...cursor(marked))).toBeNull();
  });

  it('is found in any text, wherever the cursor stands', () => {
    const text = schemaText;
    for (let at = 0; at <= text.length; at += 1) expect(() => placeAt(text, at)).not.toThrow();
  });
});

const schemaText = 'a:\n  - { b: [c, "d: e"], f: g }\n  - h: >\n      i # j\n  -\n? k\n: l\n]}{[,: -';

describe('what is offered', () => {
  const source = completionSource({ schema: schemaFor('flows/a.yaml'), names: { finding: ['sex', 'temperature'], step: ['who'] } });
  const offered = (marked: string): string[] => {
    const [text, pos] = cursor(marked);
    const found = source({ state: { doc: text }, pos, explicit: true } as unknown as Parameters<typeof source>[0]);
    return found === null || found instanceof Promise ? [] : found.options.map(({ label }) => label);
  };

  it('is the keys that a step may have, without those that it has', () => {
    expect(offered('flow: a\nsteps:\n  - step: who\n    |')).toEqual(expect.arrayContaining(['read', 'mark', 'only-if']));
    expect(offered('flow: a\nsteps:\n  - step: who\n    |')).not.toContain('step');
  });

  it('is the findings that the draft knows, where a finding may stand', () => {
    expect(offered('flow: a\nsteps:\n  - step: who\n    read: [|]')).toEqual(expect.arrayContaining(['sex', 'temperature']));
  });

  it('is the words that the schema lists for a value', () => {
    expect(offered('flow: a\nsteps:\n  - step: who\n    twins: |')).toContain('share');
  });
});
