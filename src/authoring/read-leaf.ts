// Reads one leaf of a condition. The whole language of leaves:
//
//   grunting · danger-sign · illness-sign besides temperature or warmth-by-touch · not <leaf>
//   feeding is less-than-before or not-at-all · convulsion is not none · temperature is low · sex is known
//   age < 168 h · bilirubin >= bilirubin-treatment-line · age past prolonged-jaundice · age below early-jaundice
//   lowest reading of respiratory-rate is slow · 2 readings of glucose are low · readings of temperature fall
//   highest reading of temperature > 39.0 · temperature has a reading (no reading, 2 readings) · grunting is absent
//   severe-jaundice is given · family back is given · switch cord-pus is urgent
//   jitteriness was given 0.5 h ago      by an earlier look, at least so long ago, and what it rested on was looked at again

import type { Condition } from '../clinical/condition.ts';
import type { NumberFinding } from '../clinical/protocol.ts';
import type { Comparator, Which } from '../clinical/test-kinds.ts';
import { LeafWords, Unreadable } from './leaf-words.ts';
import { termsOf, type Vocabulary } from './vocabulary.ts';
import type { Place, Report } from './yaml-source.ts';

const comparators: readonly string[] = ['<', '<=', '>', '>='];
const ordinals: readonly string[] = ['first', 'second', 'third', 'last', 'lowest', 'highest'];

export function readLeaf(text: string, place: Place, vocabulary: Vocabulary, report: Report): Condition | null {
  try {
    return new LeafReader(text, place, vocabulary, report).read();
  } catch (stopped) {
    if (stopped instanceof Unreadable) return null;
    throw stopped;
  }
}

class LeafReader extends LeafWords {
  private readonly vocabulary: Vocabulary;

  constructor(text: string, place: Place, vocabulary: Vocabulary, report: Report) {
    super(text, place, report);
    this.vocabulary = vocabulary;
  }

  read(): Condition {
    const condition = this.readTest();
    if (this.rest() !== '')
      this.stop(
        this.at,
        'condition/more-than-one',
        `"${this.rest()}" is left over.`,
        'Write each test on a line of its own, under "any:" or "all:".',
      );
    return condition;
  }

  private readTest(): Condition {
    if (this.take('not')) return { kind: 'not', of: this.readTest() };
    if (this.take('switch')) return this.readSwitch();
    if (this.take('family')) return this.readFamily();
    if (this.take('readings')) {
      this.expect('of');
      const term = this.numberFinding().id;
      this.expect('fall');
      return { kind: 'readings-fall', term };
    }
    if (/^\d+$/.test(this.word(0)) && /^readings?$/.test(this.word(1))) return this.readReadings();
    if (ordinals.includes(this.word(0)) && this.word(1) === 'reading') return this.readOrdinal();
    return this.readTerm();
  }

  private readSwitch(): Condition {
    const found = this.vocabulary.switches.get(this.word(0));
    if (found === undefined) return this.unknown('condition/unknown-switch', 'switch', this.vocabulary.switches.keys());
    this.at++;
    this.expect('is');
    return { kind: 'switch', switch: found, options: this.readOptions(found.options, `option of ${found.id}`) };
  }

  private readFamily(): Condition {
    const classifications = this.vocabulary.families.get(this.word(0));
    if (classifications === undefined) return this.unknown('condition/unknown-family', 'family', this.vocabulary.families.keys());
    this.at++;
    this.expect('is');
    this.expect('given');
    return { kind: 'given', classifications };
  }

  private readReadings(): Condition {
    const atLeast = Number(this.word(0));
    this.at += 2;
    this.expect('of');
    const finding = this.numberFinding();
    if (!this.take('is')) this.expect('are');
    return { kind: 'readings-in-band', term: finding.id, atLeast, finding, bands: this.readBands(finding) };
  }

  private readOrdinal(): Condition {
    const which = this.word(0) as Exclude<Which, 'standing'>;
    this.at += 2;
    this.expect('of');
    const finding = this.numberFinding();
    if (comparators.includes(this.word(0))) return this.readComparison(finding.id, which);
    this.expect('is');
    return { kind: 'in-band', term: finding.id, which, finding, bands: this.readBands(finding) };
  }

  private readTerm(): Condition {
    const name = this.word(0);
    if (this.word(1) === 'is' && (this.word(2) === 'given' || (this.word(2) === 'not' && this.word(3) === 'given')))
      return this.readGiven(name);
    if (this.word(1) === 'was' && this.word(2) === 'given') return this.readGivenBefore(name);
    const named = this.vocabulary.conditions.get(name);
    if (named !== undefined) {
      this.at++;
      return { kind: 'named', name, besides: this.readBesides(), of: named };
    }
    const finding = this.vocabulary.findings.get(name);
    const field = this.vocabulary.fields.get(name);
    if (finding === undefined && field === undefined) {
      return this.unknown('condition/unknown-name', 'finding, field or named condition', [
        ...termsOf(this.vocabulary),
        ...this.vocabulary.conditions.keys(),
      ]);
    }
    this.at++;
    const next = this.word(0);
    if (next === 'is' && this.word(1) === 'known') return this.skip(2, { kind: 'known', term: name });
    if (next === 'has') return this.readHas(name);
    if (comparators.includes(next) || next === 'below' || next === 'past') return this.readComparison(name);
    if (finding?.kind === 'sign') {
      if (next === 'is' && this.word(1) === 'absent') return this.skip(2, { kind: 'absent', term: name });
      if (next !== '')
        this.stop(
          this.at,
          'condition/not-for-a-sign',
          `"${name}" is seen or not seen; "${this.rest()}" cannot be asked of it.`,
          `Write "${name}" or "not ${name}".`,
        );
      return { kind: 'seen', term: name };
    }
    if (next !== 'is') {
      this.stop(
        this.at,
        'condition/no-test',
        `"${name}" has a value, and this does not say which.`,
        `Write "${name} is ..." or "${name} < ...".`,
      );
    }
    this.at++;
    const measure =
      finding?.kind === 'number' || finding?.kind === 'count' ? finding : field?.kind === 'number' ? field.measure : undefined;
    if (measure !== undefined) return { kind: 'in-band', term: name, which: 'standing', finding: measure, bands: this.readBands(measure) };
    const choices = finding?.kind === 'choice' ? finding.options : field?.kind === 'choice' ? field.options : [];
    const options = this.readOptions(choices, `option of ${name}`);
    return { kind: 'is', term: name, options, takesNormal: finding !== undefined && options.includes(choices[0] ?? '') };
  }

  /** `has a reading`, `has no reading`, `has 2 readings`. */
  private readHas(term: string): Condition {
    this.at++;
    const count = this.word(0);
    const condition: Condition = { kind: 'has-reading', term, atLeast: /^\d+$/.test(count) ? Number(count) : 1 };
    if (!/^(a|no|\d+)$/.test(count) || !/^readings?$/.test(this.word(1)))
      this.stop(
        this.at,
        'condition/no-test',
        'This does not say how many readings.',
        `Write "${term} has a reading", "has no reading" or "has 2 readings".`,
      );
    return this.skip(2, count === 'no' ? { kind: 'not', of: condition } : condition);
  }

  private readGiven(name: string): Condition {
    if (!this.vocabulary.classifications.has(name))
      return this.unknown('condition/unknown-classification', 'classification', this.vocabulary.classifications);
    this.at += 2;
    const given: Condition = { kind: 'given', classifications: [name] };
    const negated = this.take('not');
    this.expect('given');
    return negated ? { kind: 'not', of: given } : given;
  }

  private readGivenBefore(classification: string): Condition {
    if (!this.vocabulary.classifications.has(classification))
      return this.unknown('condition/unknown-classification', 'classification', this.vocabulary.classifications);
    this.at += 3;
    const hours = this.readAmount('age', `"${this.word(0)}" does not say how long ago.`);
    this.expect('ago');
    return { kind: 'given-before', classification, hours };
  }

  private readBesides(): string[] {
    const besides: string[] = [];
    if (!this.take('besides')) return besides;
    do {
      const terms = termsOf(this.vocabulary);
      if (!terms.includes(this.word(0))) this.unknown('condition/unknown-name', 'finding or field', terms);
      besides.push(this.word(0));
      this.at++;
    } while (this.take('or'));
    return besides;
  }

  private readComparison(term: string, which?: Exclude<Which, 'standing'>): Condition {
    const word = this.word(0);
    const finding = this.vocabulary.findings.get(term);
    if (which === undefined && finding && 'readings' in finding && finding.readings > 1) {
      const bands = finding.bands.map((band) => band.id).join(', ');
      this.stop(
        this.at,
        'condition/several-readings',
        `"${term}" may have several readings, and this does not say which is meant.`,
        `Write "${term} is ..." with one of: ${bands}.`,
      );
    }
    this.at++;
    if (word === 'below' || word === 'past') {
      const limit = this.vocabulary.limits.get(this.word(0));
      if (limit === undefined) return this.unknown('condition/unknown-limit', 'limit', this.vocabulary.limits.keys());
      return this.skip(1, { kind: 'beside-line', term, side: word, limit });
    }
    const comparator = word as Comparator;
    const compared = this.word(0);
    if (termsOf(this.vocabulary).includes(compared)) return this.skip(1, { kind: 'compared', term, comparator, to: { term: compared } });
    const number = this.readAmount(term, `"${compared}" is neither a number nor a term.`);
    return { kind: 'compared', term, comparator, to: { number }, ...(which === undefined ? {} : { which }) };
  }

  /** A number and its unit, in the term's own unit. */
  private readAmount(term: string, otherwise: string): number {
    const digits = this.word(0);
    if (!/^-?\d+(\.\d+)?$/.test(digits))
      this.stop(this.at, 'condition/not-a-number', otherwise, 'Write digits with a point, and the unit after a space.');
    this.at++;
    return Number(digits) * this.readUnit(term);
  }

  /** What one of the unit is worth. A field must say its unit, so that 7 days are never read as 7 hours. */
  private readUnit(term: string): number {
    const field = this.vocabulary.fields.get(term);
    const finding = this.vocabulary.findings.get(term);
    const isNumber = finding?.kind === 'number' || finding?.kind === 'count';
    const units: Readonly<Record<string, number>> = field?.kind === 'number' ? field.units : isNumber ? { [finding.unit]: 1 } : {};
    const known = Object.keys(units);
    const unit = this.word(0);
    if (known.length === 0)
      this.stop(this.at - 1, 'condition/not-a-number', `"${term}" is not a number.`, `Write "${term}" without a comparison.`);
    if (unit === '' && isNumber) return 1;
    const worth = units[unit];
    if (worth === undefined)
      this.stop(
        this.at,
        'condition/no-unit',
        `The number that "${term}" is held against has no unit that it knows.`,
        `Write the unit after the number: ${known.join(', ')}.`,
      );
    this.at++;
    return worth;
  }

  private readBands(finding: NumberFinding): string[] {
    return this.readOptions(
      finding.bands.map((band) => band.id),
      `band of ${finding.id}`,
    );
  }

  /** `a or b`; after `not`, all the others. */
  private readOptions(options: readonly string[], kind: string): string[] {
    const negated = this.take('not');
    const chosen: string[] = [];
    do {
      if (!options.includes(this.word(0))) this.unknown('condition/unknown-option', kind, options);
      chosen.push(this.word(0));
      this.at++;
    } while (this.take('or'));
    return negated ? options.filter((option) => !chosen.includes(option)) : chosen;
  }

  private numberFinding(): NumberFinding {
    const finding = this.vocabulary.findings.get(this.word(0));
    if (finding?.kind !== 'number' && finding?.kind !== 'count') {
      const numbers = [...this.vocabulary.findings.values()]
        .filter((one) => one.kind === 'number' || one.kind === 'count')
        .map((one) => one.id);
      return this.unknown('condition/unknown-name', 'finding that is a number', numbers);
    }
    this.at++;
    return finding;
  }
}
