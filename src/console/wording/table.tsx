// The table of wording: a message a row, language beside language, each cell a field with its meter. On a narrow screen the cells of
// a message stand below each other. Styles: wording.css. Next: wording-page.tsx, what stands around it.

import type { VNode } from 'preact';
import { root } from '../route.ts';
import type { Say } from '../words.ts';
import { isWarned, type Meter, type MeterWords, meterOf, sayMeter } from './meter.ts';
import type { Cell, Row } from './rows.ts';
import type { Unsaved } from './save-words.ts';

interface Given {
  readonly rows: readonly Row[];
  readonly say: Say;
  /** What could not be saved, by `fieldName`: typed words stay where they were typed. */
  readonly unsaved: ReadonlyMap<string, Unsaved>;
}

export function fieldName(tag: string, key: string): string {
  return `${tag}:${key}`;
}

/** With their places in them, which the page and its script fill. */
export function meterWords(say: Say): MeterWords {
  const places = { units: '{units}', room: '{room}', over: '{over}', characters: '{characters}' };
  return { fits: say('wording.fits', places), over: say('wording.over', places), outside: say('wording.outside', places) };
}

export function WordingTable({ rows, say, unsaved }: Given): VNode {
  const languages = rows[0]?.cells.map(({ language }) => language) ?? [];
  const words = meterWords(say);
  return (
    <table class="wording" data-fits={words.fits} data-over={words.over} data-outside={words.outside}>
      <caption>{say('wording.caption')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('wording.message')}</th>
          {languages.map(({ tag, name, draft }) => (
            <th key={tag} scope="col">
              <span lang={tag}>{name}</span>
              {draft ? <span class="wording-note"> {say('wording.not-reviewed')}</span> : null}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ key, cells }) => (
          <tr key={key}>
            <th scope="row">
              <code>{key}</code>
            </th>
            {cells.map((cell) => (
              <td key={cell.language.tag}>
                <Field of={key} cell={cell} say={say} words={words} unsaved={unsaved.get(fieldName(cell.language.tag, key))} />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

interface FieldGiven {
  readonly of: string;
  readonly cell: Cell;
  readonly say: Say;
  readonly words: MeterWords;
  readonly unsaved: Unsaved | undefined;
}

function Field({ of, cell, say, words, unsaved }: FieldGiven): VNode {
  const { language, written, inForce } = cell;
  const name = fieldName(language.tag, of);
  const typed = unsaved?.edit.now ?? written?.words ?? '';
  const meter: Meter | null = unsaved === undefined ? cell.meter : meterOf(of, typed, language.alphabet, written?.values ?? {});
  const isOver = meter !== null && isWarned(meter);
  return (
    <>
      <label class="wording-language" for={name}>
        <span lang={language.tag}>{language.name}</span>
        {language.draft ? <span class="wording-note"> {say('wording.not-reviewed')}</span> : null}
      </label>
      <input type="hidden" name={`was:${name}`} value={written?.words ?? ''} />
      <textarea
        id={name}
        name={`now:${name}`}
        lang={language.tag}
        dir="auto"
        rows={Math.min(8, Math.max(1, Math.ceil(typed.length / 30)))}
        aria-label={say('wording.field', { language: language.name, message: of })}
        aria-describedby={`${name}:said`}
        aria-invalid={isOver || unsaved !== undefined ? 'true' : undefined}
        data-key={of}
        data-alphabet={language.alphabet}
        data-values={JSON.stringify(written?.values ?? {})}
      >
        {typed}
      </textarea>
      <div id={`${name}:said`}>
        <p class={isOver ? 'meter meter-over' : 'meter'}>{meter === null ? say('wording.none') : sayMeter(meter, words)}</p>
        {unsaved === undefined ? null : <NotSaved unsaved={unsaved} say={say} />}
        {inForce === null ? null : (
          <p class="meter">
            {inForce.words === null ? say('wording.drafted-new') : say('wording.drafted', { words: inForce.words })}{' '}
            {written === null ? null : (
              <a href={`${root}/edit?file=${encodeURIComponent(written.file)}&line=${written.line}`}>
                {say('wording.in-file', { line: written.line })}
              </a>
            )}
          </p>
        )}
      </div>
    </>
  );
}

function NotSaved({ unsaved, say }: { readonly unsaved: Unsaved; readonly say: Say }): VNode {
  const text = unsaved.kind === 'no-place' ? say('wording.no-place') : say('wording.overtaken', { words: unsaved.words });
  return <p class="problem">{text}</p>;
}
