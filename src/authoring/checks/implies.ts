// Whether one condition holds wherever another does, as far as their form tells: "not known" is false. Next: rule-coverage.ts.

import type { Condition } from '../../clinical/condition.ts';
import { keyOf } from './condition-key.ts';

type Of<Kind extends Condition['kind']> = Extract<Condition, { readonly kind: Kind }>;

/** True: wherever `one` holds, `other` does. False: that cannot be told from how they are written. */
export function implies(one: Condition, other: Condition): boolean {
  if (keyOf(one) === keyOf(other)) return true;
  if (one.kind === 'named' && one.besides.length === 0) return implies(one.of, other);
  if (other.kind === 'named' && other.besides.length === 0) return implies(one, other.of);
  if (other.kind === 'all') return other.of.every((part) => implies(one, part));
  if (one.kind === 'any') return one.of.every((part) => implies(part, other));
  if (other.kind === 'any' && other.of.some((part) => implies(one, part))) return true;
  if (other.kind === 'any' && one.kind === 'is' && one.options.length > 1)
    return one.options.every((option) => implies({ ...one, options: [option] }, other));
  if (one.kind === 'compared' && other.kind === 'in-band') return isWithin(one, other);
  if (other.kind === 'at-least') return atLeastOf(one.kind === 'all' ? one.of : [one], other.count, other.of);
  if (one.kind === 'all') return one.of.some((part) => implies(part, other));
  if (one.kind === 'in-band' && other.kind === 'in-band')
    return one.term === other.term && one.which === other.which && one.bands.every((band) => other.bands.includes(band));
  return (
    one.kind === 'is' && other.kind === 'is' && one.term === other.term && one.options.every((option) => other.options.includes(option))
  );
}

/** A reading past that number lies in these bands, and stands once it was read. By the lines as they lie without a switch. */
function isWithin(one: Of<'compared'>, { term, which, finding, bands }: Of<'in-band'>): boolean {
  if (one.term !== term || which !== 'standing' || !('number' in one.to) || one.comparator.startsWith('<')) return false;
  const past = one.to.number;
  const reached = finding.bands.filter((_, at) => (finding.bands[at + 1]?.from ?? Number.POSITIVE_INFINITY) > past);
  return reached.every(({ id }) => bands.includes(id) && finding.holds.includes(id));
}

/** Each part brings one of the wanted that no other part brings. */
function atLeastOf(parts: readonly Condition[], count: number, wanted: readonly Condition[]): boolean {
  let left = wanted;
  let brought = 0;
  for (const part of parts) {
    const rest = left.filter((one) => !mayBring(part, one));
    const own = left.filter((one) => mayBring(part, one));
    if (own.length === 0 || !implies(part, { kind: 'any', of: own })) continue;
    left = rest;
    brought += 1;
  }
  return brought >= count;
}

function mayBring(part: Condition, one: Condition): boolean {
  return part.kind === 'any' || part.kind === 'all' ? part.of.some((inner) => mayBring(inner, one)) : implies(part, one);
}
