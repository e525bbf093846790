// What the draft does to the cost of an examination: for each language and channel what is more and what is less, as `pipit cost` counts
// it. Next: draft-part.tsx, where it stands; src/economy/costs.ts, which counts.

import type { VNode } from 'preact';
import type { CostChange, Spent } from '../ports.ts';
import type { Say } from '../words.ts';

const languages = new Intl.DisplayNames('en', { type: 'language' });
const minus = '\u2212';

interface Given {
  /** Null: it could not be counted. */
  readonly costs: readonly CostChange[] | null;
  readonly say: Say;
}

export function CostPart({ costs, say }: Given): VNode {
  if (costs === null) return <p>{say('cost.unknown')}</p>;
  const lines = costs.flatMap((cost) => {
    const differing = differences(cost, say);
    return differing.length === 0 ? [] : [{ ...cost, differing: differing.join(', ') }];
  });
  if (lines.length === 0) return <p>{say('cost.same')}</p>;
  return (
    <>
      <p class="muted">{say('cost.what')}</p>
      <ul class="costs">
        {lines.map(({ language, channel, way, differing }) => (
          <li key={`${language} ${channel} ${way}`}>
            {say('cost.line', { differing, language: languages.of(language) ?? language, channel })}{' '}
            <span class="muted">{say(`cost.way.${way.replace(' ', '-')}`)}</span>
          </li>
        ))}
      </ul>
    </>
  );
}

function differences({ channel, before, after }: CostChange, say: Say): string[] {
  const counted: readonly (readonly [string, keyof Spent])[] =
    channel === 'sms'
      ? [
          ['texts', 'exchanges'],
          ['segments-in', 'segmentsIn'],
          ['segments-out', 'segmentsOut'],
        ]
      : [['screens', 'exchanges']];
  return counted.flatMap(([name, of]) => {
    const more = after[of] - before[of];
    return more === 0 ? [] : [say(`cost.${name}`, { sign: more > 0 ? '+' : minus, count: Math.abs(more) })];
  });
}
