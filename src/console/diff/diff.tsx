// Shows how a file differs from the published one: one table a file, a body for each hunk. Added and removed are said in words and
// by a sign, not by colour alone. Styles: diff.css. What differs is found by line-diff.ts.

import type { SayWords } from '../map/say-words.ts';
import type { DiffLine, Hunk } from './line-diff.ts';

interface Given {
  readonly file: string;
  readonly hunks: readonly Hunk[];
  readonly say: SayWords;
}

export function DiffView({ file, hunks, say }: Given) {
  if (hunks.length === 0) return <p>{say('diff.same', { file })}</p>;
  const all = hunks.flatMap(({ lines }) => lines);
  const count = (kind: DiffLine['kind']): number => all.filter((line) => line.kind === kind).length;
  const caption = say('diff.caption', { file, added: count('added'), removed: count('removed') });
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways is reached by keyboard only when it takes the focus
    <section class="diff" aria-label={caption} tabIndex={0}>
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{say('diff.before')}</th>
            <th scope="col">{say('diff.after')}</th>
            <th scope="col">{say('diff.line')}</th>
          </tr>
        </thead>
        {hunks.map((hunk) => (
          <tbody key={`${hunk.lines[0]?.before} ${hunk.lines[0]?.after}`}>
            {hunk.lines.map((line) => (
              <Line key={`${line.before} ${line.after}`} line={line} say={say} />
            ))}
          </tbody>
        ))}
      </table>
    </section>
  );
}

const signs = { same: '', removed: '−', added: '+' } as const;

function Line({ line: { kind, text, before, after }, say }: { readonly line: DiffLine; readonly say: SayWords }) {
  const code = <code>{text}</code>;
  return (
    <tr class={`diff-${kind}`}>
      <td class="diff-number">{before}</td>
      <td class="diff-number">{after}</td>
      <td class="diff-text">
        <span class="diff-sign" aria-hidden="true">
          {signs[kind]}
        </span>
        {kind !== 'same' && <span class="diff-word">{say(`diff.${kind}`)} </span>}
        {kind === 'added' ? <ins>{code}</ins> : kind === 'removed' ? <del>{code}</del> : code}
      </td>
    </tr>
  );
}
