// From a case to the facts that its conditions are judged on: findings in their slots, then the fields and what is computed.
// The weight that stands in for a birth weight, and the weight that the birth-weight classes read, are chosen here.

import { type AnyCase, foundIn } from './any-case.ts';
import { type Computed, compute, known, numberIn, type SizeForBoth, type SizeForGestation } from './computed.ts';
import { type Facts, type FieldTerm, noSlots, type Slots } from './facts.ts';
import type { Protocol, ReferenceLines } from './protocol.ts';

const daysPerWeek = 7;

export function layCase(protocol: Protocol, slots: Slots, aCase: AnyCase): Facts {
  const weights = chooseWeights(aCase, protocol.lines);
  const computed = compute(aCase, weights.birth.grams, protocol.lines, protocol.growth);
  const { values, recorded } = slots.lay(aCase);
  const restsOnAge = known(aCase.ageHours) === null ? slotsOnAge(slots, weights) : noSlots;
  const { gestation } = aCase;
  const { field } = slots;
  values[field.age] = aCase.ageHours;
  values[field.sex] = aCase.sex;
  values[field.gestation] = gestation ? gestation.weeks + (gestation.days ?? 0) / daysPerWeek : null;
  values[field['birth-weight']] = weights.birth.grams;
  values[field.weight] = aCase.weightGrams;
  values[field['class-weight']] = weights.forClass.grams;
  values[field['dose-weight']] = doseWeight(aCase, protocol.lines);
  values[field.size] = computed.sizeForGestation?.class;
  values[field['weight-change']] = computed.weightChangePercent;
  values[field['weight-gain']] = computed.weightGainPerDay?.gramsPerKg;
  values[field['weight-for-age']] = computed.weightForAge?.z;
  values[field['head-centile']] = headCentile(aCase, computed, protocol.lines);
  values[field['head-growth']] = headGrowth(aCase);
  values[field['saturation-difference']] = saturationDifference(aCase);
  return {
    case: aCase,
    computed,
    values,
    recorded,
    restsOnAge,
    given: [],
  };
}

function slotsOnAge(slots: Slots, weights: ReturnType<typeof chooseWeights>): Set<number> {
  const terms: FieldTerm[] = ['age', 'bilirubin-treatment-line', 'bilirubin-exchange-line'];
  if (weights.birth.restsOnAge) terms.push('birth-weight');
  if (weights.forClass.restsOnAge) terms.push('class-weight');
  return new Set(terms.map((term) => slots.of(term)));
}

interface Chosen {
  readonly grams: number | null;
  /** The field it came from. */
  readonly from: 'birthWeightGrams' | 'weightGrams';
  readonly restsOnAge: boolean;
}

/** A birth weight that is not known is stood in for by the weight in the first days; later, classes read the weight now. */
export function chooseWeights(aCase: AnyCase, lines: ReferenceLines): { readonly birth: Chosen; readonly forClass: Chosen } {
  const age = known(aCase.ageHours);
  const atBirth = known(aCase.birthWeightGrams);
  const now = known(aCase.weightGrams);
  const isEarly = age === null || age < lines.weightStandsInUntilHours;
  const isLate = age === null || age >= lines.weightStandsInUntilHours;
  const standsIn = atBirth === null && now !== null && isEarly;
  const birth: Chosen = standsIn
    ? { grams: now, from: 'weightGrams', restsOnAge: age === null }
    : { grams: atBirth, from: 'birthWeightGrams', restsOnAge: false };
  if (now === null || !isLate) return { birth, forClass: birth };
  if (age !== null || atBirth === null) return { birth, forClass: { grams: now, from: 'weightGrams', restsOnAge: false } };
  const lower = Math.min(now, atBirth);
  return { birth, forClass: { grams: lower, from: lower === now ? 'weightGrams' : 'birthWeightGrams', restsOnAge: now !== atBirth } };
}

/** The weight of today: the weight now, or on the first day the birth weight. */
export function doseWeight(aCase: AnyCase, lines: ReferenceLines): number | null {
  const age = known(aCase.ageHours);
  const isFirstDay = age !== null && age < lines.doseFromBirthWeightUntilHours;
  return known(aCase.weightGrams) ?? (isFirstDay ? known(aCase.birthWeightGrams) : null);
}

/** At birth for the gestation, later for the age; beyond what the standards name, a centile on that side. */
function headCentile(aCase: AnyCase, computed: Computed, lines: ReferenceLines): number | null {
  const age = known(aCase.ageHours);
  if (age === null) return null;
  const head = age < lines.atBirthUntilHours ? computed.headForGestation : computed.headForAge;
  if (head === null) return null;
  if (head.centile === 'below-0.1') return 0;
  return head.centile === 'above-99.9' ? 100 : head.centile;
}

function headGrowth(aCase: AnyCase): number | null {
  const now = numberIn(aCase, 'head-circumference');
  if (now === null) return null;
  const before = numberIn(aCase, 'previous-head-circumference');
  const days = numberIn(aCase, 'days-since-previous');
  return before === null || days === null ? null : ((now - before) / days) * daysPerWeek;
}

function saturationDifference(aCase: AnyCase): number | null {
  const hand = numberIn(aCase, 'saturation-right-hand');
  if (hand === null) return null;
  const foot = numberIn(aCase, 'saturation-foot');
  return foot === null ? null : Math.abs(hand - foot);
}

/** The name and the value of a field in a reason: the input field or the computed key that it came from. */
export function showField(facts: Facts, term: FieldTerm, lines: ReferenceLines): { finding: string; value: unknown } {
  const { case: aCase, computed } = facts;
  switch (term) {
    case 'age':
      return { finding: 'ageHours', value: aCase.ageHours };
    case 'sex':
      return { finding: 'sex', value: aCase.sex };
    case 'gestation':
      return { finding: 'gestation', value: aCase.gestation };
    case 'weight':
      return { finding: 'weightGrams', value: aCase.weightGrams };
    case 'birth-weight':
    case 'class-weight': {
      const chosen = chooseWeights(aCase, lines)[term === 'birth-weight' ? 'birth' : 'forClass'];
      return { finding: chosen.from, value: chosen.grams };
    }
    case 'size':
      return { finding: 'sizeForGestation', value: shownSize(computed.sizeForGestation) };
    case 'weight-change':
      return { finding: 'weightChangePercent', value: computed.weightChangePercent };
    case 'weight-gain':
      return { finding: 'weightGainPerDay', value: computed.weightGainPerDay?.gramsPerKg };
    case 'weight-for-age':
      return { finding: 'weightForAge', value: computed.weightForAge?.z };
    case 'head-centile': {
      const atBirth = computed.headForGestation !== null;
      return {
        finding: atBirth ? 'headForGestation' : 'headForAge',
        value: (atBirth ? computed.headForGestation : computed.headForAge)?.centile,
      };
    }
    case 'head-growth':
      return { finding: 'head-circumference', value: foundIn(aCase, 'head-circumference') };
    case 'saturation-difference':
      return { finding: 'saturation-foot', value: foundIn(aCase, 'saturation-foot') };
    default:
      return { finding: term, value: null };
  }
}

function shownSize(size: SizeForGestation | SizeForBoth | null): unknown {
  return size !== null && 'centile' in size ? size.centile : size?.class;
}
