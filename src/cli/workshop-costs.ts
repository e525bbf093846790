// What an edit does to the cost of an examination, for the page of changes: with nothing found, which takes a moment to walk. What is
// expected of all babies, and with everything marked, takes longer: `pipit cost` (cost.ts). Next: src/economy/costs.ts.

import type { CostChange } from '../console/ports.ts';
import type { Published } from '../conversation/book.ts';
import { type Cost, changesBetween, costsOf } from '../economy/costs.ts';
import type { ScreenLimit } from '../messages/screens.ts';

/** Any morning does: examples of times of birth lie before it. */
export const morning = Date.UTC(2026, 0, 15, 9, 30);

const ways = ['quickest', 'all normal'] as const;

/** Null: an examination of one of the two comes to no result, which is for `check` to say. */
export function costChangesBetween(before: Published, after: Published, screen: ScreenLimit): readonly CostChange[] | null {
  const [was, is] = [costsIn(before, screen), costsIn(after, screen)];
  if (was === null || is === null) return null;
  return changesBetween(was, is).flatMap((change) => {
    const way = ways.find((one) => one === change.after.way);
    const { language, channel } = change.after;
    return way === undefined ? [] : [{ language, channel, way, before: spent(change.before), after: spent(change.after) }];
  });
}

function costsIn(published: Published, screen: ScreenLimit): readonly Cost[] | null {
  try {
    return costsOf(published, {
      ...{ languages: [...published.catalogues.byTag.keys()], ways, screen, now: morning },
      // Of no weight: they are for ways that are not counted here, and for minutes.
      ...{ prevalence: { otherwise: 0, signs: {}, values: {} }, walks: 0, seed: 0, secondsPerExchange: 1, secondsPerCall: 1 },
    });
  } catch {
    return null;
  }
}

function spent({ exchanges, segmentsIn, segmentsOut }: Cost): CostChange['before'] {
  return { exchanges, segmentsIn, segmentsOut };
}
