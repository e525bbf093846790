// Doses as they are said, only to workers whom the roster marks as authorised: amount, millilitres where the vial is known,
// the formula, the maximum, and always to check with the nurse. What is withheld says why. Computed by src/clinical/doses.ts.

import type { Dose } from '../clinical/doses.ts';
import type { Interpretation } from '../clinical/protocol.ts';
import type { Book, DoseBasis } from './book.ts';
import type { Standing } from './lookup.ts';
import { type Say, say } from './reply.ts';

export function doseLines({ interpretation, mayInject }: Pick<Standing, 'interpretation' | 'mayInject'>, book: Book): Say[] {
  const doses = dosesOf(interpretation);
  if (!mayInject || doses.length === 0) return [];
  return [say('dose.check'), ...doses.map((dose) => doseLine(dose, book.doseBasis(dose.drug, dose.row)))];
}

function dosesOf(interpretation: Interpretation): readonly Dose[] {
  const { doses } = interpretation.computed;
  return Array.isArray(doses) ? (doses as readonly Dose[]) : [];
}

function doseLine({ drug: name, amount, unit, millilitres, times, row, withheld }: Dose, basis: DoseBasis | undefined): Say {
  const drug = say(`dose.drug.${name}`);
  if (amount === null) return say('dose.withheld', { drug, why: say(`dose.why.${withheld ?? 'outside-table'}`) });
  const values = { drug, amount, unit, times: say(`dose.times.${times.replaceAll(' ', '-')}`), row, basis: basisOf(basis, unit) };
  return millilitres === null ? say('dose.amount', values) : say('dose.millilitres', { ...values, millilitres });
}

function basisOf(basis: DoseBasis | undefined, unit: string): Say {
  if (basis?.perKg !== undefined)
    return basis.atMost === undefined
      ? say('dose.per-kg', { perKg: basis.perKg, unit })
      : say('dose.per-kg-most', { perKg: basis.perKg, unit, most: basis.atMost });
  return basis?.ceiling === undefined
    ? say('dose.by-table')
    : say('dose.by-weight-most', { most: basis.ceiling.amount, perKg: basis.ceiling.perKg, unit });
}
