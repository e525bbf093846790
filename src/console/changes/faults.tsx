// What check says of files: errors first, each with why it matters and what to type, leading to its line in the editor.

import type { VNode } from 'preact';
import type { Diagnostic } from '../../authoring/diagnostic.ts';
import { editLink } from '../flows/edit-link.ts';
import type { Say } from '../words.ts';

export function Faults({ diagnostics, say }: { readonly diagnostics: readonly Diagnostic[]; readonly say: Say }): VNode {
  const errorsFirst = [...diagnostics].sort((a, b) => a.severity.localeCompare(b.severity));
  return (
    <ul class="faults">
      {errorsFirst.map((one) => (
        <li key={`${one.file} ${one.range.start.line} ${one.range.start.column} ${one.code} ${one.what}`}>
          <strong class={one.severity === 'error' ? 'urgent' : 'refer'}>{say(`publish.${one.severity}`)}</strong> {one.what}{' '}
          <a href={editLink(one.file, one.range.start.line)}>{say('publish.at', { file: one.file, line: one.range.start.line })}</a>
          <br />
          <span class="muted">{one.why}</span> {one.fix}
        </li>
      ))}
    </ul>
  );
}
