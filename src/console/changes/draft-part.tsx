// The draft on the page of changes: in plain words, by what it costs, by what check says, line by line, and the form that publishes it.
// Next: history-part.tsx, what was published before.

import type { VNode } from 'preact';
import type { Change } from '../../authoring/changes/change.ts';
import { DiffView } from '../diff/diff.tsx';
import { editLink } from '../flows/edit-link.ts';
import { root } from '../route.ts';
import type { Say } from '../words.ts';
import { CostPart } from './cost-part.tsx';
import type { DraftState } from './draft-state.ts';
import { Faults } from './faults.tsx';
import { Moment } from './moment.tsx';

interface Given {
  readonly state: DraftState;
  readonly zone: string;
  readonly say: Say;
  readonly formToken: string;
  /** Typed before, and not published. */
  readonly note: string;
}

export function DraftPart({ state, zone, say, formToken, note }: Given): VNode {
  const { files, changes, costs, diagnostics } = state;
  const differing = files.filter(({ hunks }) => hunks.length > 0);
  if (differing.length === 0) return <p>{say(files.length === 0 ? 'publish.no-draft' : 'publish.draft-as-published')}</p>;
  const errors = diagnostics.filter(({ severity }) => severity === 'error').length;
  return (
    <>
      <h2>{say('publish.would-change')}</h2>
      {changes === null ? <p class="problem">{say('publish.unreadable')}</p> : <Changes changes={changes} say={say} />}
      <h2>{say('cost.title')}</h2>
      <CostPart costs={costs} say={say} />
      <h2>{say('publish.check')}</h2>
      <p class={errors > 0 ? 'problem' : 'done'}>
        {say('publish.found', { errors, warnings: diagnostics.length - errors })} {errors > 0 ? say('publish.blocked') : ''}
      </p>
      {diagnostics.length === 0 ? null : <Faults diagnostics={diagnostics} say={say} />}
      <h2>{say('publish.by-file')}</h2>
      {differing.map(({ draft, hunks }) => (
        <details key={draft.name}>
          <summary>
            {draft.name} <span class="muted">{say('publish.drafted-by', { name: draft.by })}</span> <Moment at={draft.at} zone={zone} />
          </summary>
          <DiffView file={draft.name} hunks={hunks} say={say} />
          <p>
            <a href={editLink(draft.name)}>{say('publish.edit', { file: draft.name })}</a>
          </p>
        </details>
      ))}
      <h2>{say('publish.title')}</h2>
      <form class="publish" method="post" action={`${root}/changes/publish`}>
        <input type="hidden" name="token" value={formToken} />
        <input type="hidden" name="seen" value={state.number} />
        <input type="hidden" name="mark" value={state.mark} />
        <label>
          {say('publish.note')}
          <input name="note" maxLength={200} value={note} />
        </label>
        <button type="submit" class="main" disabled={errors > 0}>
          {say('publish.go')}
        </button>
        <p class="muted">{say(errors > 0 ? 'publish.blocked' : 'publish.what-happens')}</p>
      </form>
    </>
  );
}

function Changes({ changes, say }: { readonly changes: readonly Change[]; readonly say: Say }): VNode {
  if (changes.length === 0) return <p>{say('publish.no-meaning')}</p>;
  return (
    <ul class="changes">
      {changes.map((change) => (
        <li key={`${change.kind} ${change.file} ${change.line} ${JSON.stringify(change.values)}`}>
          {say(`change.${change.kind}`, change.values)}{' '}
          <a href={editLink(change.file, change.edition === 'after' ? change.line : undefined)}>
            {change.edition === 'after' ? say('publish.at', { file: change.file, line: change.line }) : change.file}
          </a>
        </li>
      ))}
    </ul>
  );
}
