// What was published, newest first: who, when, why; one touch brings the last one back, and each line its own. Next: draft-part.tsx.

import type { VNode } from 'preact';
import type { Publication } from '../../conversation/publications.ts';
import { root } from '../route.ts';
import { Scroll } from '../scroll.tsx';
import type { Say } from '../words.ts';
import { Moment } from './moment.tsx';

interface Given {
  readonly history: readonly Publication[];
  /** Address at which older ones stand too; null: these are all. */
  readonly older: string | null;
  readonly zone: string;
  readonly say: Say;
  readonly formToken: string;
}

export function HistoryPart({ history, older, zone, say, formToken }: Given): VNode {
  const [newest] = history;
  if (newest === undefined) return <p>{say('publish.never')}</p>;
  const hidden = (
    <>
      <input type="hidden" name="token" value={formToken} />
      <input type="hidden" name="seen" value={newest.number} />
    </>
  );
  return (
    <>
      {newest.number < 2 ? null : (
        <form method="post" action={`${root}/changes/undo`}>
          {hidden}
          <button type="submit">{say('publish.undo', { number: newest.number })}</button>{' '}
          <span class="muted">{say('publish.undo-what', { number: newest.number - 1 })}</span>
        </form>
      )}
      <Scroll name={say('publish.history')}>
        <table>
          <caption>{say('publish.history-what')}</caption>
          <thead>
            <tr>
              {['number', 'when', 'who', 'why', 'version', 'back'].map((column) => (
                <th key={column} scope="col">
                  {say(`publish.column-${column}`)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {history.map(({ number, at, by, note, restores, version }) => (
              <tr key={number}>
                <th scope="row">{number}</th>
                <td>
                  <Moment at={at} zone={zone} />
                </td>
                <td>{by}</td>
                <td>
                  {restores === null ? '' : say('publish.restores', { number: restores })} {note ?? ''}
                </td>
                <td>
                  <code>{version.slice(0, 12)}</code>
                </td>
                <td>
                  {number === newest.number ? (
                    say('publish.in-force')
                  ) : (
                    <form method="post" action={`${root}/changes/undo`}>
                      {hidden}
                      <input type="hidden" name="to" value={number} />
                      <button type="submit" aria-label={say('publish.back-to', { number })}>
                        {say('publish.back')}
                      </button>
                    </form>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      {older === null ? null : (
        <p>
          <a href={older}>{say('publish.older')}</a>
        </p>
      )}
    </>
  );
}
