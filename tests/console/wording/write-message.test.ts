// A message written into a locale file: every other character of it stays.

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readWording } from '../../../src/console/wording/read-wording.ts';
import { writeMessage } from '../../../src/console/wording/write-message.ts';

const file = `# Kept.
messages:
  signs:
    # birth
    cry: { unable: "cannot cry", weak: 'it''s weak' }   # also kept
    movement:   no movement
    long: >
      two
      lines

    empty:
  ask: {  }
# The end.
`;
const order = ['signs.first', 'signs.cry.unable', 'signs.cry.loud', 'signs.cry.weak', 'signs.movement', 'signs.fit', 'ask.breaths.title'];

describe('a message that is there', () => {
  it.each([
    ['signs.cry.unable', 'says "no"', '"cannot cry"', '"says \\"no\\""'],
    ['signs.cry.weak', "it's loud: {count}", "'it''s weak'", "'it''s loud: {count}'"],
    ['signs.cry.weak', 'one\ntwo', "'it''s weak'", '"one\\ntwo"'],
    ['signs.movement', 'does not move', 'no movement', 'does not move'],
    ['signs.movement', 'moves: rarely', 'no movement', '"moves: rarely"'],
    ['signs.movement', '', 'no movement', '""'],
    ['signs.long', 'short', '>\n      two\n      lines\n', '"short"\n'],
    ['signs.empty', 'full', 'empty:', 'empty: "full"'],
  ])('is replaced in its own quotes where they can hold it: %s', (key, words, from, to) => {
    expect(writeMessage(file, key, words, order)).toBe(file.replace(from, to));
  });
});

describe('a message that is new', () => {
  it.each([
    ['signs.cry.loud', 'shrill', `unable: "cannot cry"`, `unable: "cannot cry", loud: "shrill"`],
    ['signs.fit', 'fit', 'movement:   no movement\n', 'movement:   no movement\n    fit: "fit"\n'],
    ['signs.tone.limp', 'limp', '    empty:\n', '    empty:\n    tone: { limp: "limp" }\n'],
    ['ask.breaths.title', 'Breaths?', '{  }', '{ breaths: { title: "Breaths?" } }'],
    ['told.well', 'Well.', '  ask: {  }\n', '  ask: {  }\n  told: { well: "Well." }\n'],
  ])('stands where the base language has it, or last: %s', (key, words, from, to) => {
    expect(writeMessage(file, key, words, order)).toBe(file.replace(from, to));
  });

  it('opens the messages of a file that has none, and of one that is empty', () => {
    expect(writeMessage('# New.\nlanguage: { tag: sw }\n', 'a.b', 'x', [])).toBe(
      '# New.\nlanguage: { tag: sw }\nmessages: { a: { b: "x" } }\n',
    );
    expect(writeMessage('', 'a.b', 'x', [])).toBe('messages:\n  a: { b: "x" }\n');
  });

  it('ends its line as the file does, and begins one when the last has no end', () => {
    expect(writeMessage('messages:\r\n  a: "1"\r\n  b: "2"\r\n', 'ab', 'x', ['a', 'ab', 'b'])).toBe(
      'messages:\r\n  a: "1"\r\n  ab: "x"\r\n  b: "2"\r\n',
    );
    expect(writeMessage('messages:\n  a: "1"', 'b', 'x', ['a', 'b'])).toBe('messages:\n  a: "1"\n  b: "x"');
  });
});

describe('a message without a place', () => {
  it.each([
    ['a group stands there', file, 'signs.cry'],
    ['words stand where its group would', file, 'signs.movement.none'],
    ['the file is a list', '- a\n', 'a'],
    ['the file cannot be read', 'messages: { a: "1"\n', 'a'],
  ])('is not written: %s', (_, text, key) => {
    expect(writeMessage(text, key, 'x', order)).toBeNull();
  });
});

const locales = fileURLToPath(new URL('../../../locales/', import.meta.url));
const shipped = ['en', 'fr', 'hi', 'sw'].flatMap((tag) =>
  readdirSync(`${locales}${tag}`).map((name) => ({
    name: `locales/${tag}/${name}`,
    text: readFileSync(`${locales}${tag}/${name}`, 'utf8'),
  })),
);
const { languages } = readWording(shipped, 'en');
const written = languages.flatMap((language) => [...language.messages].map(([key, { file: name }]) => ({ key, name })));

it('reads every message of the shipped languages', () => {
  expect(languages.map(({ tag }) => tag)).toEqual(['en', 'fr', 'hi', 'sw']);
  expect(new Set(languages.map(({ messages }) => messages.size)).size).toBe(1);
});

it('changes nothing in a shipped file but the words of the message, whatever they are', () => {
  const anyWords = fc.string({ unit: 'binary', maxLength: 40 }).filter((text) => !/\p{Surrogate}/u.test(text));
  fc.assert(
    fc.property(fc.constantFrom(...written), anyWords, ({ key, name }, words) => {
      const before = shipped.find((one) => one.name === name)?.text ?? '';
      const after = writeMessage(before, key, words, []) ?? '';
      const expected = parse(before, { schema: 'failsafe' });
      const path = key.split('.');
      const group = path.slice(0, -1).reduce((map, part) => map[part], expected.messages);
      group[path.at(-1) ?? ''] = words;
      expect(parse(after, { schema: 'failsafe' })).toEqual(expected);
      const [old, fresh] = [before.split('\n'), after.split('\n')];
      expect(fresh).toHaveLength(old.length);
      expect(fresh.filter((line, at) => line !== old[at]).length).toBeLessThanOrEqual(1);
    }),
    { numRuns: 60 },
  );
});
