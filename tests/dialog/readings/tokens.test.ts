import { describe, expect, it } from 'vitest';
import { normalise, tokens } from '../../../src/dialog/readings/tokens.ts';
import { words } from '../first-day.ts';

describe('digits', () => {
  // Oracle: the numbering systems of the runtime's own Unicode data (CLDR), each of which writes ten digits.
  const decimal = Intl.supportedValuesOf('numberingSystem').filter((system) => {
    const shown = new Intl.NumberFormat(`en-u-nu-${system}`, { useGrouping: false }).format(9876543210);
    return [...shown].length === 10 && /^\p{Nd}+$/u.test(shown);
  });

  it('are known in every script that the runtime knows', () => {
    expect(decimal.length).toBeGreaterThan(60);
    for (const system of decimal) {
      const shown = new Intl.NumberFormat(`en-u-nu-${system}`, { useGrouping: false }).format(9876543210);
      expect(normalise(shown), system).toBe('9876543210');
    }
  });

  it.each([
    ['३६.८ ४४ १३२', ['36.8', '44', '132']],
    ['٣٦٫٨ ٤٤ ١٣٢', ['36.8', '44', '132']],
    ['৩৬.৮,৪৪', ['36.8,44']],
    ['３６．８　４４', ['36.8', '44']],
    ['1️⃣ 3️⃣', ['1', '3']],
    ['\u200F36.8\u200F 44', ['36.8', '44']],
  ])('of %j are read as %j', (text, pieces) => {
    expect(tokens(text, words)).toEqual(pieces);
  });

  it('never run together over a character that cannot be seen', () => {
    for (const hidden of ['\u200B', '\u200F', '\u2028', '\u0000', '\uFEFF', '\uD800'])
      expect(tokens(`44${hidden}132`)).toEqual(['44', '132']);
  });
});

describe('letters for digits', () => {
  it.each([
    ['36.O 44 l32', ['36.0', '44', '132']],
    ['I32 1OO', ['132', '100']],
    ['O43O 39', ['0430', '39']],
    ['36,Oc', ['36,0c']],
    ['O', ['0']],
    ['l', ['1']],
    ['lO', ['10']],
    ['I 3', ['1', '3']],
    ['l O43O 39', ['1', '0430', '39']],
  ])('%j is %j', (text, pieces) => {
    expect(tokens(text, words)).toEqual(pieces);
  });

  it.each([
    ['SPO2 96', ['spo2', '96']],
    ['leo 0430', ['leo', '0430']],
    ['leo0430', ['leo0430']],
    ['foot', ['foot']],
    ['hello', ['hello']],
    ['3kilo', ['3kilo']],
  ])('%j is words as well and stays %j', (text, pieces) => {
    expect(tokens(text, words)).toEqual(pieces);
  });

  it('a letter that is a label of the language stays one', () => {
    const own = { ...words, labels: new Map([['l', 'length']]) };
    expect(tokens('L 50', own)).toEqual(['l', '50']);
    expect(tokens('L 50', words)).toEqual(['1', '50']);
  });
});

describe('pieces', () => {
  it.each([
    ['  36.8,  44 ;132. ', ['36.8', '44', '132']],
    ['36.8 ,44 ,132', ['36.8', '44', '132']],
    ['T: 36.8 R= 44', ['t', '36.8', 'r', '44']],
    ['44 / min, 22 / 30s', ['44/min', '22/30s']],
    ['39 + 4', ['39+4']],
    ['24 / 11 0430', ['24/11', '0430']],
    ['URINE+ 36.8', ['urine+', '36.8']],
    ['36.8°C 36·8', ['36.8c', '36.8']],
    ['–', ['-']],
    ['', []],
    [' \n\u0000 ', []],
    ['👶🏽 44', ['👶🏽', '44']],
    ['مرحبا', ['مرحبا']],
    ['__proto__ constructor', ['__proto__', 'constructor']],
  ])('of %j are %j', (text, pieces) => {
    expect(tokens(text, words)).toEqual(pieces);
  });

  it('join what the language reads together', () => {
    expect(tokens('boy Just now, not known', words)).toEqual(['boy', 'just now', 'not known']);
    expect(tokens('not clear', words)).toEqual(['not clear']);
    expect(tokens('not well', words)).toEqual(['not', 'well']);
    expect(tokens('not known')).toEqual(['not', 'known']);
  });
});
