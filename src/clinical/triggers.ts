// Which findings can have a rule met at all. A baby has few findings that are not normal, and most rules cannot be met
// without one of theirs: interpret.ts judges only the rules that something recorded can trigger.

import type { Condition } from './condition.ts';
import { parts } from './condition-parts.ts';
import type { ClassificationRule, Finding, Rule } from './protocol.ts';

/** `known`: any value of the term; `notable`: a value that is not the normal one. */
export interface Trigger {
  readonly term: string;
  readonly on: 'known' | 'notable';
}

/** One of these must be there for the condition to hold; null: it may hold without any. */
type Triggers = readonly Trigger[] | null;

/**
 * The triggers of one rule; null when it must always be judged.
 *
 * Takes    owner: the classification that the rule is of.
 */
export function triggersOf(
  { when }: Rule,
  owner: ClassificationRule,
  findings: ReadonlyMap<string, Finding>,
  ruleOf: (classification: string) => ClassificationRule | undefined,
): Triggers {
  return ofCondition(when);

  function ofCondition(condition: Condition): Triggers {
    switch (condition.kind) {
      case 'any':
      case 'at-least':
        return anyOf(condition.of.map(ofCondition));
      case 'all':
        return fewest(condition.of.map(ofCondition));
      case 'named':
        return anyOf(parts(condition).map(ofCondition));
      case 'given':
        return anyOf(
          condition.classifications.map((id) => {
            const other = ruleOf(id);
            if (other === undefined || other === owner) return [];
            return anyOf(other.rules.map((one) => triggersOf(one, other, findings, ruleOf)));
          }),
        );
      case 'seen':
      case 'readings-fall':
      case 'beside-line':
      case 'known':
        return condition.term === 'age' ? null : [{ term: condition.term, on: condition.kind === 'seen' ? 'notable' : 'known' }];
      case 'has-reading':
        return [{ term: condition.term, on: 'known' }];
      case 'compared':
        return condition.term === 'age' ? null : [{ term: condition.term, on: 'known' }];
      case 'is':
        return condition.takesNormal ? null : [{ term: condition.term, on: findings.has(condition.term) ? 'notable' : 'known' }];
      case 'in-band':
      case 'readings-in-band':
        return takesRoutine(condition) ? null : [{ term: condition.term, on: 'notable' }];
      case 'given-before':
      case 'none':
      case 'not':
      case 'switch':
      case 'absent':
        return null;
    }
  }
}

function takesRoutine(condition: Extract<Condition, { kind: 'in-band' | 'readings-in-band' }>): boolean {
  return condition.finding.bands.some((band) => band.routine && condition.bands.includes(band.id));
}

function anyOf(all: readonly Triggers[]): Triggers {
  return all.includes(null) ? null : [...new Map(all.flatMap((one) => one ?? []).map((one) => [`${one.term} ${one.on}`, one])).values()];
}

/** Of conditions that must all hold, the one that fewest findings can bring about. */
function fewest(all: readonly Triggers[]): Triggers {
  return all.reduce((least, one) => (least === null || (one !== null && one.length < least.length) ? one : least), null);
}
