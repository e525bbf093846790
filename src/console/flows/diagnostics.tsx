// What check says of the draft, to be read below the editor: this file's first, the others' with links. In the gutter of the editor the
// same stands at its line (src/console/client/editing/check.ts).

import type { VNode } from 'preact';
import { type Diagnostic, sortDiagnostics } from '../../authoring/diagnostic.ts';
import type { Say } from '../words.ts';
import { editLink } from './edit-link.ts';

interface Given {
  readonly file: string;
  readonly diagnostics: readonly Diagnostic[];
  readonly say: Say;
}

export function Diagnostics({ file, diagnostics, say }: Given): VNode {
  const errors = diagnostics.filter(({ severity }) => severity === 'error').length;
  const own = sortDiagnostics(diagnostics.filter((one) => one.file === file));
  const others = sortDiagnostics(diagnostics.filter((one) => one.file !== file));
  return (
    <>
      <p class={errors === 0 ? 'done' : 'problem'}>{say('edit.checked', { errors, warnings: diagnostics.length - errors })}</p>
      <List diagnostics={own} say={say} />
      {others.length > 0 && <h2>{say('edit.elsewhere')}</h2>}
      <List diagnostics={others} say={say} isElsewhere />
    </>
  );
}

function List({ diagnostics, say, isElsewhere = false }: Omit<Given, 'file'> & { readonly isElsewhere?: boolean }): VNode | null {
  if (diagnostics.length === 0) return null;
  return (
    <ul class="diagnostics">
      {diagnostics.map((one) => (
        <li key={`${one.file} ${one.code} ${one.range.start.line} ${one.range.start.column} ${one.what}`} class={`is-${one.severity}`}>
          <p>
            <strong>{say(`edit.${one.severity}`)}</strong>{' '}
            <a href={editLink(one.file, one.range.start.line)} data-line={isElsewhere ? undefined : one.range.start.line}>
              {isElsewhere ? `${one.file}, ` : ''}
              {say('map.line', { line: one.range.start.line })}
            </a>{' '}
            {one.what}
          </p>
          <dl>
            <dt>{say('edit.why')}</dt>
            <dd>{one.why}</dd>
            <dt>{say('edit.fix')}</dt>
            <dd>{one.fix}</dd>
          </dl>
        </li>
      ))}
    </ul>
  );
}
