// What became of a publication or an undo, in words. Next: publish-draft.ts; faults.tsx, what check says.

import type { VNode } from 'preact';
import type { Say } from '../words.ts';
import { Faults } from './faults.tsx';
import { Moment } from './moment.tsx';
import type { Outcome } from './publish-draft.ts';

interface Given {
  readonly outcome: Outcome;
  readonly zone: string;
  readonly say: Say;
}

export function SaidOutcome({ outcome, zone, say }: Given): VNode {
  switch (outcome.kind) {
    case 'published':
      return (
        <p class="done" role="status">
          {say('publish.published', { number: outcome.number })}
        </p>
      );
    case 'overtaken':
      return (
        <p class="problem" role="alert">
          {say('publish.overtaken', { number: outcome.by.number, name: outcome.by.by })} <Moment at={outcome.by.at} zone={zone} />
        </p>
      );
    case 'refused':
      return (
        <div class="problem" role="alert">
          <p>{say('publish.refused')}</p>
          <Faults diagnostics={outcome.diagnostics} say={say} />
        </div>
      );
    default:
      return (
        <p class="problem" role="alert">
          {say(`publish.${outcome.kind}`)}
        </p>
      );
  }
}
