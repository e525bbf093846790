import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Diagnostic } from '../../src/authoring/diagnostic.ts';
import { readCatalogues } from '../../src/authoring/read-catalogue.ts';
import type { SourceFile } from '../../src/authoring/yaml-source.ts';
import { wordingIn } from '../../src/cli/load-published.ts';
import { say } from '../../src/messages/catalogue.ts';
import { only, readLocales } from './catalogue-files.ts';

const english = `language: { tag: en, name: English, alphabet: gsm-7, draft: no }
keywords: { back: [BACK, B] }
readings: { hours: [h, hr], labels: { temperature: [T, TEMP] } }
messages:
  list: { joiner: "; " }
  ask: { breathing: { title: "BREATHING." } }
  tell: { fast: "{count} is fast." }
`;

describe('readCatalogues', () => {
  it('reads a language: its header, its words, and its messages by joined key', () => {
    const { catalogues, diagnostics } = readLocales({ 'locales/en.yaml': english });
    expect(diagnostics).toEqual([]);
    const en = catalogues.byTag.get('en');
    expect(en).toMatchObject({ tag: 'en', name: 'English', alphabet: 'gsm-7', draft: false });
    expect(en?.keywords.get('back')).toEqual(['BACK', 'B']);
    expect(en?.readings.get('hours')).toEqual(['h', 'hr']);
    expect(en?.labels.get('temperature')).toEqual(['T', 'TEMP']);
    expect(say(catalogues, 'en', 'ask.breathing.title')).toBe('BREATHING.');
    expect(say(catalogues, 'en', 'tell.fast', { count: 66 })).toBe('66 is fast.');
  });

  it('keeps the spaces of the joiner, and of no other message', () => {
    const { catalogues } = readLocales({ 'en.yaml': english.replace('"BREATHING."', '" BREATHING. "') });
    expect(catalogues.byTag.get('en')?.messages.get('list.joiner')?.fixed).toBe('; ');
    expect(say(catalogues, 'en', 'ask.breathing.title')).toBe('BREATHING.');
  });

  it('merges the files of a folder into one language', () => {
    const { catalogues, diagnostics } = readLocales({
      'locales/en/about.yaml': 'language: { tag: en, name: English, alphabet: gsm-7, draft: no }\n',
      'locales/en/ask.yaml': 'messages: { ask: { title: HEAD } }\n',
      'locales/en/tell.yaml': 'messages: { tell: { well: WELL } }\n',
    });
    expect(diagnostics).toEqual([]);
    expect([...(catalogues.byTag.get('en')?.messages.keys() ?? [])]).toEqual(['ask.title', 'tell.well']);
  });

  it('takes texts as they are written: no is not false, and 012 is not 12', () => {
    const { catalogues } = readLocales({ 'en.yaml': english.replace('"BREATHING."', 'NO').replace('"{count} is fast."', '012') });
    expect(say(catalogues, 'en', 'ask.breathing.title')).toBe('NO');
    expect(say(catalogues, 'en', 'tell.fast')).toBe('012');
  });

  it('reads own digits', () => {
    const { catalogues, diagnostics } = readLocales({
      'en.yaml': english.replace('gsm-7, draft: no', 'ucs-2, draft: no, digits: ٠١٢٣٤٥٦٧٨٩'),
    });
    expect(diagnostics).toEqual([]);
    expect(say(catalogues, 'en', 'tell.fast', { count: 66 })).toBe('٦٦ is fast.');
  });

  it('leaves out a language that cannot be used and keeps the others', () => {
    const { catalogues, diagnostics } = readLocales({ 'en.yaml': english, 'sw.yaml': 'messages: {}\n' });
    expect([...catalogues.byTag.keys()]).toEqual(['en']);
    expect(only(diagnostics)).toMatchObject({ code: 'language/missing', file: 'sw.yaml' });
  });

  it('never throws, whatever stands in the file, and says something about what it cannot use', () => {
    const scraps = fc.constantFrom(
      'language:',
      'messages:',
      'keywords:',
      'readings:',
      ' ',
      '\n',
      '\n  ',
      '{',
      '}',
      '[',
      ']',
      '- ',
      ': ',
      'tag',
      'en',
      '"',
      "'",
      '&a',
      '*a',
      '__proto__',
      '|',
      '#',
      '\t',
      '?',
      '😀',
    );
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.string({ unit: scraps, maxLength: 40 })), (text) => {
        const diagnostics: Diagnostic[] = [];
        const { byTag } = readCatalogues([{ name: 'locales/en.yaml', text }], (diagnostic) => diagnostics.push(diagnostic));
        expect(byTag.has('en') || diagnostics.length > 0).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});

describe('the languages that come with the product', () => {
  const files: SourceFile[] = wordingIn(new URL('../../locales', import.meta.url).pathname);

  it('read without an error', () => {
    const errors: Diagnostic[] = [];
    const { byTag } = readCatalogues(files, (diagnostic) => diagnostic.severity === 'error' && errors.push(diagnostic));
    expect(errors).toEqual([]);
    expect(byTag.has('en')).toBe(true);
  });
});
