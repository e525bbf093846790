import { describe, expect, it } from 'vitest';
import { only, readLocales } from './catalogue-files.ts';

const header = 'language: { tag: en, name: English, alphabet: gsm-7, draft: no }\n';
const swahili = 'language: { tag: sw, name: Kiswahili, alphabet: gsm-7, draft: no }\n';
const one = (text: string) => only(readLocales({ 'en.yaml': text }).diagnostics);
const inMessage = (text: string, head = header) => one(`${head}messages:\n  ask: ${text}\n`);

describe('the header', () => {
  it.each([
    ['language: { tag: en, name: English, alphabet: gsm7, draft: no }\n', 'yaml/unknown-word', 'Write "gsm-7".'],
    ['language: { tag: en, name: English, alphabet: gsm-7 }\n', 'yaml/field-missing', 'Add "draft: ...".'],
    ['language: { tag: EN, name: English, alphabet: gsm-7, draft: no }\n', 'language/not-a-tag', 'Write "en".'],
    [
      'language: { tag: e, name: English, alphabet: gsm-7, draft: no }\n',
      'language/not-a-tag',
      'Write the BCP-47 tag of the language, such as sw or pt-MZ.',
    ],
    ['language: { tag: sw, name: English, alphabet: gsm-7, draft: no }\n', 'language/tag-differs', 'Write "en", or rename the file.'],
    [
      'language: { tag: en, name: English, alphabet: ucs-2, draft: no, digits: "012" }\n',
      'language/not-ten-digits',
      'Write the ten digits from zero to nine without spaces, or take the line out.',
    ],
    [
      'language: { tag: en, name: English, alphabet: gsm-7, draft: no, digits: ٠١٢٣٤٥٦٧٨٩ }\n',
      'language/digits-outside-alphabet',
      'Take the line out, or write "alphabet: ucs-2".',
    ],
    [`${header}mesages: {}\n`, 'yaml/unknown-field', 'Write "messages".'],
  ])('in %j is refused as %s', (text, code, fix) => {
    expect(one(text)).toMatchObject({ code, fix });
  });

  it('in two files of one language is refused', () => {
    expect(only(readLocales({ 'en/a.yaml': header, 'en/b.yaml': header }).diagnostics)).toMatchObject({
      code: 'language/twice',
      file: 'en/b.yaml',
    });
  });
});

describe('keywords', () => {
  it.each('STOP STOPALL UNSUBSCRIBE CANCEL END QUIT REVOKE OPTOUT START YES UNSTOP HELP INFO help Yes'.split(' '))(
    'that carriers keep are refused: %s',
    (word) => {
      expect(one(`${header}keywords:\n  back: [${word}]\n`)).toMatchObject({
        code: 'keyword/reserved',
        range: { start: { line: 3, column: 10 } },
      });
    },
  );

  it('of one digit are refused, for an answer is a digit', () => {
    expect(one(`${header}keywords: { back: ["0"] }\n`)).toMatchObject({ code: 'keyword/digit' });
    expect(readLocales({ 'en.yaml': `${header}keywords: { back: ["00"] }\n` }).diagnostics).toEqual([]);
  });

  it('of two meanings are refused, whatever their capitals', () => {
    expect(one(`${header}keywords:\n  back: [BACK]\n  more: [MORE, back]\n`)).toMatchObject({
      code: 'keyword/two-meanings',
      range: { start: { line: 4, column: 16 } },
      related: [{ range: { start: { line: 3, column: 10 } } }],
    });
  });

  it('without a word are refused', () => {
    expect(one(`${header}keywords: { back: [] }\n`)).toMatchObject({ code: 'words/none' });
  });

  it('in two files of one language are refused', () => {
    const { diagnostics } = readLocales({ 'en/a.yaml': `${header}keywords: { back: [B] }\n`, 'en/b.yaml': 'keywords: { back: [BACK] }\n' });
    expect(only(diagnostics)).toMatchObject({ code: 'words/twice', file: 'en/b.yaml', related: [{ file: 'en/a.yaml' }] });
  });

  it('may share a label with a value, but two values may not share one', () => {
    expect(one(`${header}readings: { labels: { temperature: [T], time: [t] } }\n`)).toMatchObject({ code: 'label/two-meanings' });
  });
});

describe('a message', () => {
  it.each([
    ['"{weight"', '"{weight" opens a bracket that is never closed.', 'Put "}" behind the name of the value.'],
    ['"a {} b"', '"{}" names no value.', 'Write the name of the value inside, such as {weight}, or take the brackets out.'],
    ['"{n, plurl, other {#}}"', 'There is no form "plurl".', 'Write "plural".'],
    [
      '"{n, plural, one {#}}"',
      'The branch "other" is missing.',
      'Add other {...} before the last bracket; it is used when no other branch fits.',
    ],
    ['"{n, select, a {x} a {y} other {}}"', 'The branch "a" is there twice.', 'Keep one of the two.'],
  ])('that cannot be read says why in plain words: %s', (text, what, fix) => {
    expect(inMessage(text)).toMatchObject({ code: 'message/not-readable', what, fix });
  });

  it.each([
    ['"{n, number}"', 'Write {n}: numbers, times and dates come ready to be shown.'],
    ['"{d, date, short}"', 'Write {d}: numbers, times and dates come ready to be shown.'],
    ['"{n, selectordinal, other {#.}}"', 'Write {n} or {n, plural, ...}.'],
  ])('may not let the machine format: %s', (text, fix) => {
    expect(inMessage(text)).toMatchObject({ code: 'message/form-not-used', fix });
  });

  it('that hides a value behind an apostrophe is refused at the apostrophe', () => {
    expect(inMessage(`"poids de l'{name}"`)).toMatchObject({
      code: 'message/value-in-quotes',
      fix: "Write two apostrophes: ''{name}.",
      range: { start: { line: 3, column: 19 } },
    });
  });

  it('with a bracket that closes nothing is warned of', () => {
    expect(inMessage('"a } b"')).toMatchObject({
      code: 'message/stray-bracket',
      severity: 'warning',
      range: { start: { line: 3, column: 11 } },
    });
  });

  it.each(['', '[a, b]', '&a'])('must be text: %j is not', (text) => {
    expect(inMessage(text)).toMatchObject({ code: 'message/not-text', what: '"ask" has no text.' });
  });

  it('may be empty when it is said so in quotes', () => {
    const { catalogues, diagnostics } = readLocales({ 'en.yaml': `${header}messages: { ask: "" }\n` });
    expect(diagnostics).toEqual([]);
    expect(catalogues.byTag.get('en')?.messages.get('ask')?.fixed).toBe('');
  });

  it('written twice is refused, in one file or in two', () => {
    expect(one(`${header}messages:\n  a.b: one\n  a: { b: two }\n`)).toMatchObject({
      code: 'message/twice',
      related: [{ range: { start: { line: 3, column: 3 } } }],
    });
    expect(one(`${header}messages:\n  a: one\n  a: two\n`)).toMatchObject({ file: 'en.yaml', range: { start: { line: 4, column: 3 } } });
    const { diagnostics } = readLocales({ 'en/a.yaml': `${header}messages: { a: one }\n`, 'en/b.yaml': 'messages: { a: two }\n' });
    expect(only(diagnostics)).toMatchObject({ code: 'message/twice', file: 'en/b.yaml', related: [{ file: 'en/a.yaml' }] });
  });

  it.each([
    ['ç', 'U+00E7', 'Write "c", or set "alphabet: ucs-2" for the whole language.'],
    ['ê', 'U+00EA', 'Write "e", or set "alphabet: ucs-2" for the whole language.'],
    ['½', 'U+00BD', 'Write " 1/2", or set "alphabet: ucs-2" for the whole language.'],
    ['µ', 'U+00B5', 'Write "mc", or set "alphabet: ucs-2" for the whole language.'],
    ['ɗ', 'U+0257', 'Write "d", or set "alphabet: ucs-2" for the whole language.'],
    ['ሕ', 'U+1215', 'Say it in other letters, or set "alphabet: ucs-2" for the whole language.'],
    ['😀', 'U+1F600', 'Say it in other letters, or set "alphabet: ucs-2" for the whole language.'],
  ])('in gsm-7 may not hold %s', (character, code, fix) => {
    const found = inMessage(`"ab${character}"`);
    expect(found).toMatchObject({ code: 'message/outside-alphabet', what: `"${character}" (${code}) is not in the gsm-7 alphabet.`, fix });
    expect(found.range.start).toEqual({ line: 3, column: 11 });
  });

  it('in gsm-7 may be written with curly quotes and dashes, which are sent plain', () => {
    expect(readLocales({ 'en.yaml': `${header}messages: { ask: "baby\u2019s \u2013 \u201cwarm\u201d\u2026" }\n` }).diagnostics).toEqual([]);
  });

  it('in ucs-2 may hold any letter', () => {
    expect(
      readLocales({ 'am.yaml': 'language: { tag: am, name: አማርኛ, alphabet: ucs-2, draft: no }\nmessages: { ask: ሕፃን }\n' }).diagnostics,
    ).toEqual([]);
  });
});

describe('a language against the base', () => {
  const base = `${header}keywords: { back: [B], more: [M] }\nmessages:\n  ask: { title: "{count} for {name}", hint: x }\n  she: "{sex, select, girl {She} other {The baby}} eats"\n  n: "{count, plural, one {# text} other {# texts}}"\n`;
  const whole = {
    keywords: 'keywords: { back: [RUDI], more: [ZAIDI] }\n',
    ask: '  ask: { title: "{count} kwa {name}", hint: y }\n',
    she: '  she: Mtoto anakula\n',
    n: '  n: "{count, plural, one {ujumbe #} other {jumbe #}}"\n',
  };
  const against = (part: Partial<typeof whole>, head = swahili) => {
    const { keywords, ask, she, n } = { ...whole, ...part };
    return readLocales({ 'en.yaml': base, 'sw.yaml': `${head}${keywords}messages:\n${ask}${she}${n}` }).diagnostics;
  };

  it('that says the same is accepted, even if its grammar needs no choice by sex', () => {
    expect(against({})).toEqual([]);
  });

  it('may not lack a message, and is told beside its neighbour', () => {
    expect(only(against({ ask: '  ask: { title: "{count} kwa {name}" }\n' }))).toMatchObject({
      code: 'locale/missing',
      severity: 'error',
      file: 'sw.yaml',
      what: 'Kiswahili does not say "ask.hint".',
      range: { start: { line: 4 } },
      related: [{ file: 'en.yaml', range: { start: { line: 4 } } }],
    });
  });

  it('may lack a message while it is a draft: a warning', () => {
    expect(only(against({ she: '' }, swahili.replace('no }', 'yes }')))).toMatchObject({ code: 'locale/missing', severity: 'warning' });
  });

  it('may not have a message of its own', () => {
    expect(only(against({ ask: '  ask: { title: "{count} kwa {name}", hint: y, hnit: z }\n' }))).toMatchObject({
      code: 'locale/unknown-name',
      fix: 'Write "ask.hint".',
    });
  });

  it('may not lack the words of a command', () => {
    expect(only(against({ keywords: 'keywords: { back: [RUDI] }\n' }))).toMatchObject({
      code: 'locale/missing',
      what: 'Kiswahili has no words for: more.',
    });
  });

  it('may not leave a value out', () => {
    expect(only(against({ ask: '  ask: { title: "{count}", hint: y }\n' }))).toMatchObject({
      code: 'message/value-missing',
      what: '"ask.title" does not show {name}.',
    });
  });

  it('may not be silent where the base speaks', () => {
    expect(only(against({ she: '  she: ""\n' }))).toMatchObject({ code: 'message/empty', what: '"she" is empty.' });
  });

  it('is told once of a value whose name is misspelt', () => {
    expect(only(against({ ask: '  ask: { title: "{count} kwa {nmae}", hint: y }\n' }))).toMatchObject({
      code: 'message/value-unknown',
      fix: 'Write {name}.',
    });
  });

  it('is warned of a plural form that it needs and lacks', () => {
    expect(only(against({ n: '  n: "{count, plural, other {jumbe #}}"\n' }))).toMatchObject({
      code: 'message/plural-form-missing',
      severity: 'warning',
      fix: 'Add one {...}.',
    });
    expect(against({ n: '  n: "{count, plural, =1 {ujumbe #} other {jumbe #}}"\n' })).toEqual([]);
  });

  it('is warned of a plural form that it never uses', () => {
    expect(only(against({ n: '  n: "{count, plural, one {a #} two {b #} other {c #}}"\n' }))).toMatchObject({
      code: 'message/plural-form-unused',
      severity: 'warning',
    });
  });
});

describe('a value that the base language repeats', () => {
  const both = (own: string) =>
    readLocales({
      'en.yaml': `${header}messages:\n  ask: "{code} {baby}. Reply {code} or {code} NO"\n`,
      'sw.yaml': `${swahili}messages:\n  ask: "${own}"\n`,
    }).diagnostics;

  it('is repeated in every language', () => {
    expect(both('{code} {baby}. Jibu {code} au {code} HAPANA')).toEqual([]);
    expect(only(both('{code} {baby}. Jibu au {code} HAPANA'))).toMatchObject({ code: 'message/value-fewer', file: 'sw.yaml' });
  });
});
