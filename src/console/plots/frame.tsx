// What every plot has around it: a name, a drawing with words for those who do not see it, notes, and a table of the same values.
// A drawing is as wide as a small phone and grows with its column, so that its words stay legible. Colours: plots.css.

import type { ComponentChildren, JSX } from 'preact';

/** Words of the console by their key. */
export type Say = (key: string, values?: Readonly<Record<string, string | number>>) => string;

export const width = 340;

export interface Table {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

interface Framed {
  /** Of this plot alone on its page. */
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  /** What the drawing shows, in a sentence. */
  readonly description: string;
  readonly height: number;
  readonly notes: readonly string[];
  readonly table: Table;
  readonly say: Say;
  /** Null: nothing of it can be placed, and only the table is shown. */
  readonly children: ComponentChildren;
}

export function Frame({ id, name, unit, description, height, notes, table, say, children }: Framed): JSX.Element {
  return (
    <figure class="plot">
      <figcaption class="plot-caption">
        <span class="plot-name">{name}</span> <span class="plot-unit">{unit}</span>
      </figcaption>
      {children === null ? null : (
        <svg class="plot-drawing" viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby={`${id}-title ${id}-description`}>
          <title id={`${id}-title`}>{name}</title>
          <desc id={`${id}-description`}>{description}</desc>
          {children}
        </svg>
      )}
      {notes.map((note) => (
        <p class="plot-note" key={note}>
          {note}
        </p>
      ))}
      <details class="plot-values">
        <summary>{say('plot.table', { name })}</summary>
        <table>
          <thead>
            <tr>
              {table.head.map((cell) => (
                <th scope="col" key={cell}>
                  {cell}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.rows.map(([first, ...rest], row) => (
              <tr key={row}>
                <th scope="row">{first}</th>
                {rest.map((cell, column) => (
                  <td key={table.head[column + 1]}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </figure>
  );
}

/** What is named, when nothing can be drawn of it: that it is absent is news too. */
export function Empty({ name, why }: { readonly name: string; readonly why: string }): JSX.Element {
  return (
    <section class="plot">
      <p class="plot-caption">
        <span class="plot-name">{name}</span>
      </p>
      <p class="plot-note">{why}</p>
    </section>
  );
}
