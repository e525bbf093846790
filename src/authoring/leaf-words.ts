// The words of one leaf, read from left to right, and what is said when the next one is not what it must be.
// Next: read-leaf.ts, which knows what the words mean.

import type { Condition } from '../clinical/condition.ts';
import { complain, type Place, type Report, rangeWithin, unknownName } from './yaml-source.ts';

const why = 'The rule could not be judged, and what it looks for would be missed.';

interface Word {
  readonly text: string;
  readonly from: number;
}

/** Thrown by LeafWords and caught by readLeaf: the leaf cannot be read on, and the author has been told. */
export class Unreadable extends Error {}

export class LeafWords {
  /** The place of the next word. */
  at = 0;
  private readonly words: readonly Word[];
  private readonly place: Place;
  private readonly report: Report;

  constructor(text: string, place: Place, report: Report) {
    this.words = [...text.matchAll(/\S+/g)].map((match) => ({ text: match[0], from: match.index }));
    this.place = place;
    this.report = report;
  }

  word(ahead: number): string {
    return this.words[this.at + ahead]?.text ?? '';
  }

  take(word: string): boolean {
    if (this.word(0) !== word) return false;
    this.at++;
    return true;
  }

  expect(word: string): void {
    if (!this.take(word))
      this.stop(
        this.at,
        'condition/word-missing',
        this.word(0) === '' ? `"${word}" is missing at the end.` : `"${word}" is missing before "${this.rest()}".`,
        `Put "${word}" in.`,
      );
  }

  skip(words: number, condition: Condition): Condition {
    this.at += words;
    return condition;
  }

  rest(): string {
    return this.words
      .slice(this.at)
      .map((word) => word.text)
      .join(' ');
  }

  unknown(code: string, kind: string, names: Iterable<string>): never {
    const word = this.words[this.at];
    this.report(unknownName(this.place, this.rangeOf(this.at), code, kind, word?.text ?? '', names, why));
    throw new Unreadable();
  }

  stop(at: number, code: string, what: string, fix: string): never {
    this.report(complain(this.place, this.rangeOf(at), code, what, why, fix));
    throw new Unreadable();
  }

  rangeOf(at: number): Place['range'] {
    const word = this.words[at];
    return word === undefined ? this.place.range : rangeWithin(this.place, word.from, word.from + word.text.length);
  }
}
