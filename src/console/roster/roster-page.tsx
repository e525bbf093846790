// The page of the roster: who is on call, and the four tables as text to edit, each with what is wrong in it line by line.
// Next: roster-routes.ts, save-roster.ts.

import type { VNode } from 'preact';
import type { Diagnostic } from '../../authoring/diagnostic.ts';
import type { RosterData } from '../../conversation/roster.ts';
import { DiffView } from '../diff/diff.tsx';
import { lineDiff } from '../diff/line-diff.ts';
import { root, type Visit } from '../route.ts';
import type { Say } from '../words.ts';
import { OnCallPart } from './on-call-part.tsx';
import { fileOf, type SavedRoster, type Table, type TableTexts, tables } from './save-roster.ts';

interface Given extends Pick<Visit, 'say' | 'formToken'> {
  readonly data: RosterData;
  readonly number: number;
  readonly now: number;
  readonly outcome: SavedRoster | null;
  readonly editing: Editing;
}

export interface Editing {
  readonly texts: TableTexts;
  /** As it is stored, to compare with. */
  readonly stored: TableTexts;
  readonly diagnostics: readonly Diagnostic[];
}

export function RosterPage({ data, number, now, outcome, editing, say, formToken }: Given): VNode {
  return (
    <>
      {outcome === null ? null : <Said outcome={outcome} say={say} />}
      <h2>{say('roster.on-call')}</h2>
      <OnCallPart data={data} now={now} say={say} />
      <h2>{say('roster.tables')}</h2>
      <form method="post" action={`${root}/roster`}>
        <input type="hidden" name="token" value={formToken} />
        <input type="hidden" name="seen" value={number} />
        <p class="muted">{say('roster.how')}</p>
        {tables.map((table) => (
          <TableField key={table} table={table} editing={editing} isOvertaken={outcome?.kind === 'overtaken'} say={say} />
        ))}
        <button type="submit" class="main">
          {say('roster.save')}
        </button>{' '}
        <span class="muted">{say('roster.save-what')}</span>
      </form>
    </>
  );
}

function Said({ outcome, say }: { readonly outcome: SavedRoster; readonly say: Say }): VNode {
  return outcome.kind === 'imported' ? (
    <p class="done" role="status">
      {say('roster.imported', { count: outcome.changes })}
    </p>
  ) : (
    <p class="problem" role="alert">
      {say(`roster.${outcome.kind}`)}
    </p>
  );
}

interface FieldGiven {
  readonly table: Table;
  readonly editing: Editing;
  /** True: the difference to what is stored is shown, since somebody else changed that. */
  readonly isOvertaken: boolean;
  readonly say: Say;
}

function TableField({ table, editing: { texts, stored, diagnostics }, isOvertaken, say }: FieldGiven): VNode {
  const own = diagnostics.filter(({ file }) => file === fileOf(table));
  const hasErrors = own.some(({ severity }) => severity === 'error');
  const rows = Math.min(24, Math.max(3, texts[table].split('\n').length + 1));
  return (
    <div class="roster-table">
      <label for={table}>{say(`roster.${table}`)}</label>
      {own.length === 0 ? null : (
        <ul id={`${table}-faults`} class="faults">
          {own.map(({ range, severity, what, why, fix }) => (
            <li key={`${range.start.line} ${range.start.column} ${what}`}>
              <strong class={severity === 'error' ? 'urgent' : 'refer'}>{say(`roster.${severity}`, { line: range.start.line })}</strong>{' '}
              {what} {fix} <span class="muted">{why}</span>
            </li>
          ))}
        </ul>
      )}
      <textarea
        id={table}
        name={table}
        rows={rows}
        wrap="off"
        spellcheck={false}
        class="mono"
        aria-describedby={own.length === 0 ? undefined : `${table}-faults`}
        aria-invalid={hasErrors ? 'true' : undefined}
      >
        {texts[table]}
      </textarea>
      {isOvertaken && texts[table] !== stored[table] ? (
        <DiffView file={say(`roster.${table}`)} hunks={lineDiff(stored[table], texts[table])} say={say} />
      ) : null}
    </div>
  );
}
