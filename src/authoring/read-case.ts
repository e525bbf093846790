// Reads one case from JSON: every field named, of its kind, in its range, and nothing in it that contradicts itself.
// What is wrong is said in the sender's own words with what to give instead. Next: src/clinical/interpret.ts.

import { contradictionsIn } from '../clinical/contradictions.ts';
import type { Case, Finding, FindingValue, Gestation, NumberFinding, Protocol, Sex } from '../clinical/protocol.ts';
import { nearestName } from './nearest-name.ts';

export interface CaseFault {
  /** Such as `findings.temperature`; empty for the case as a whole. */
  readonly field: string;
  /** `<what is wrong>; <what to give>`. */
  readonly message: string;
}

export type CaseId = string | number;

export type ReadCase =
  | { readonly kind: 'case'; readonly case: Case; readonly id: CaseId | undefined }
  | { readonly kind: 'faulty'; readonly faults: readonly CaseFault[]; readonly id: CaseId | undefined };

const fields = ['id', 'ageHours', 'sex', 'gestation', 'birthWeightGrams', 'weightGrams', 'findings', 'givenBefore', 'unlisted', 'switches'];
const sexes = ['girl', 'boy', 'not-clear'];
const unlistedWords = ['not-assessed', 'normal'];
const lastDayOfWeek = 6;
/** The names that the protocol has for fields of the case. */
const fieldNames: Readonly<Record<string, string>> = { weight: 'weightGrams' };

/** The case in this JSON value; or all that is wrong with it, in the order of its fields. Never throws. */
export function readCase(json: unknown, protocol: Protocol): ReadCase {
  if (!isObject(json))
    return { kind: 'faulty', id: undefined, faults: [{ field: '', message: `${shown(json)} is not a case; give an object in braces` }] };
  const id = typeof json.id === 'string' || typeof json.id === 'number' ? json.id : undefined;
  const reader = new CaseReader(protocol);
  const read = reader.read(json);
  return reader.faults.length > 0 ? { kind: 'faulty', faults: reader.faults, id } : { kind: 'case', case: read, id };
}

type Json = Readonly<Record<string, unknown>>;

class CaseReader {
  readonly faults: CaseFault[] = [];
  private readonly protocol: Protocol;

  constructor(protocol: Protocol) {
    this.protocol = protocol;
  }

  read(json: Json): Case {
    this.refuseUnknown(json, fields, '', 'field');
    const { id } = json;
    if (id !== undefined && id !== null && typeof id !== 'string' && typeof id !== 'number')
      this.fault('id', `${shown(id)} cannot name a case; give text or a number`);
    const findings = this.readFindings(json.findings);
    const sex = this.readWord(json.sex, 'sex', sexes) as Sex | null;
    const givenBefore = this.readGivenBefore(json.givenBefore);
    const unlisted = json.unlisted === undefined ? 'not-assessed' : this.readWord(json.unlisted, 'unlisted', unlistedWords, false);
    const switches = this.readSwitches(json.switches);
    const read: Case = {
      ageHours: this.readMeasure(json.ageHours, 'ageHours', 'age'),
      sex,
      gestation: this.readGestation(json.gestation),
      birthWeightGrams: this.readMeasure(json.birthWeightGrams, 'birthWeightGrams', 'birth-weight'),
      weightGrams: this.readMeasure(json.weightGrams, 'weightGrams', 'weight'),
      findings,
      ...(givenBefore === undefined ? {} : { givenBefore }),
      unlisted: unlisted === 'normal' ? 'normal' : 'not-assessed',
      ...(switches === undefined ? {} : { switches }),
    };
    this.refuseOtherSex(read);
    this.refuseContradictions(read);
    return read;
  }

  private fault(field: string, message: string): void {
    this.faults.push({ field, message });
  }

  private refuseUnknown(json: Json, known: readonly string[], under: string, kind: string): void {
    for (const name of Object.keys(json)) {
      if (known.includes(name)) continue;
      this.fault(under + name, `there is no ${kind} "${name}"; ${offer(name, known)}`);
    }
  }

  private readWord(value: unknown, field: string, words: readonly string[], mayBeNull = true): string | null {
    if (value === undefined || (value === null && mayBeNull)) return null;
    if (typeof value === 'string' && words.includes(value)) return value;
    const near = typeof value === 'string' ? nearestName(value, words) : null;
    this.fault(
      field,
      `${shown(value)} is not one of its words; give ${near === null ? listed([...words, ...(mayBeNull ? ['null'] : [])]) : `"${near}"`}`,
    );
    return null;
  }

  private readMeasure(value: unknown, field: string, measure: string): number | null {
    const range = this.protocol.measures.get(measure);
    if (value === undefined || value === null || range === undefined) return null;
    return this.inRange(value, field, range, false) ? (value as number) : null;
  }

  /** Also refuses what is not a number, or not whole where it must be. */
  private inRange(
    value: unknown,
    field: string,
    range: Pick<NumberFinding, 'low' | 'high' | 'decimals' | 'unit'>,
    whole: boolean,
  ): boolean {
    const plausible = `give ${range.low.toFixed(range.decimals)} to ${range.high.toFixed(range.decimals)}${range.unit === '' ? '' : ` ${range.unit}`}`;
    if (typeof value !== 'number' || !Number.isFinite(value)) this.fault(field, `${shown(value)} is not a number; ${plausible}`);
    else if (whole && !Number.isInteger(value)) this.fault(field, `${shown(value)} is not a whole number; ${plausible}`);
    else if (value < range.low || value > range.high) this.fault(field, `${shown(value)} is not plausible; ${plausible}`);
    else return true;
    return false;
  }

  private readGestation(value: unknown): Gestation | null {
    if (value === undefined || value === null) return null;
    const range = this.protocol.measures.get('gestation');
    if (!isObject(value) || range === undefined) {
      this.fault('gestation', `${shown(value)} is not a gestation; give { "weeks": 39, "days": 4 } or null`);
      return null;
    }
    this.refuseUnknown(value, ['weeks', 'days'], 'gestation.', 'field');
    const { weeks, days } = value;
    const goodWeeks = this.inRange(weeks, 'gestation.weeks', range, true);
    if (days === undefined || days === null) return goodWeeks ? { weeks: weeks as number } : null;
    const goodDays = this.inRange(days, 'gestation.days', { low: 0, high: lastDayOfWeek, decimals: 0, unit: 'days' }, true);
    return goodWeeks && goodDays ? { weeks: weeks as number, days: days as number } : null;
  }

  private readFindings(value: unknown): Record<string, FindingValue> {
    if (value === undefined) return {};
    if (!isObject(value)) {
      this.fault('findings', `${shown(value)} is not a list of findings; give an object of finding ids and values`);
      return {};
    }
    const findings: [string, FindingValue][] = [];
    for (const [id, given] of Object.entries(value)) {
      const finding = this.protocol.findingById.get(id);
      if (finding === undefined)
        this.fault(`findings.${id}`, `there is no finding "${id}"; ${offer(id, [...this.protocol.findingById.keys()])}`);
      else if (given === null || this.isValueOf(finding, given)) findings.push([id, given as FindingValue]);
    }
    return Object.fromEntries(findings);
  }

  private isValueOf(finding: Finding, value: unknown): boolean {
    const field = `findings.${finding.id}`;
    if (finding.kind === 'sign') {
      if (typeof value === 'boolean') return true;
      this.fault(field, `${shown(value)} is not an answer; give true (seen), false (looked for, not there) or null`);
      return false;
    }
    if (finding.kind === 'choice') {
      if (typeof value === 'string' && finding.options.includes(value)) return true;
      this.fault(
        field,
        `there is no option ${shown(value)}; ${typeof value === 'string' ? offer(value, finding.options) : `give ${listed(finding.options)}`}`,
      );
      return false;
    }
    const whole = finding.kind === 'count';
    if (!Array.isArray(value)) return this.inRange(value, field, finding, whole);
    if (value.length === 0 || value.length > finding.readings) {
      this.fault(
        field,
        `a list of ${value.length} is not possible here; give ${finding.readings === 1 ? 'one value' : `one value or a list of up to ${finding.readings}, oldest first`}`,
      );
      return false;
    }
    if (finding.readings === 1) {
      this.fault(field, 'a list is not possible here; give one value');
      return false;
    }
    return value.every((reading) => this.inRange(reading, field, finding, whole));
  }

  private readGivenBefore(value: unknown): Record<string, number> | undefined {
    const age = this.protocol.measures.get('age');
    if (value === undefined || age === undefined) return undefined;
    if (!isObject(value)) {
      this.fault('givenBefore', `${shown(value)} is not a list; give an object of classification ids and hours ago`);
      return undefined;
    }
    const known = this.protocol.classifications.map(({ id }) => id);
    this.refuseUnknown(value, known, 'givenBefore.', 'classification');
    const given = Object.entries(value).filter(([id, hours]) => known.includes(id) && this.inRange(hours, `givenBefore.${id}`, age, false));
    return Object.fromEntries(given) as Record<string, number>;
  }

  private readSwitches(value: unknown): Record<string, string> | undefined {
    if (value === undefined) return undefined;
    if (!isObject(value)) {
      this.fault('switches', `${shown(value)} is not a set of switches; give an object of switch ids and options`);
      return undefined;
    }
    const chosen: [string, string][] = [];
    for (const [id, option] of Object.entries(value)) {
      const known = this.protocol.switches.get(id);
      if (known === undefined) this.fault(`switches.${id}`, `there is no switch "${id}"; ${offer(id, [...this.protocol.switches.keys()])}`);
      else if (typeof option !== 'string' || !known.options.includes(option))
        this.fault(
          `switches.${id}`,
          `there is no option ${shown(option)}; ${typeof option === 'string' ? offer(option, known.options) : `give ${listed(known.options)}`}`,
        );
      else chosen.push([id, option]);
    }
    return Object.fromEntries(chosen);
  }

  private refuseOtherSex({ findings, sex }: Case): void {
    for (const [id, value] of Object.entries(findings)) {
      const finding = this.protocol.findingById.get(id);
      const only = finding === undefined ? undefined : onlyFor(finding, value);
      if (only !== undefined && (sex === 'girl' || sex === 'boy') && sex !== only) {
        this.fault(`findings.${id}`, `${shown(value)} can only be found on a ${only}, and the sex is ${sex}; correct one of the two`);
      }
    }
  }

  private refuseContradictions(read: Case): void {
    for (const { at, says, mend } of contradictionsIn(this.protocol, read)) {
      this.fault(fieldNames[at] ?? `findings.${at}`, `${says}; ${mend}`);
    }
  }
}

/** The only sex that can have this value; undefined for what is normal or common to both. */
function onlyFor(finding: Finding, value: FindingValue): 'girl' | 'boy' | undefined {
  if (value === null || value === false) return undefined;
  if (finding.kind === 'choice')
    return value === finding.options[0]
      ? undefined
      : (finding.sex ?? (Object.hasOwn(finding.optionSex, String(value)) ? finding.optionSex[String(value)] : undefined));
  return finding.sex;
}

function offer(name: string, names: readonly string[]): string {
  const near = nearestName(name, names);
  if (near !== null) return `did you mean "${near}"`;
  const few = 12;
  return names.length <= few ? `give ${listed(names)}` : 'give one of the ids in findings.yaml or switches.yaml';
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

function isObject(value: unknown): value is Json {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** As it was written, cut short. */
function shown(value: unknown): string {
  const most = 60;
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > most ? `${text.slice(0, most)}...` : text;
}
