// What a line of the audit trail holds beside its head: of a change only what differs, before and after; of anything else each field
// that has a value. Whatever its shape it is shown, and as text.

import type { VNode } from 'preact';
import type { Say } from '../words.ts';

interface Told {
  readonly name: string;
  /** Null: there was none. */
  readonly before: string | null;
  readonly after: string | null;
}

export function SaidChange({ body, say }: { readonly body: unknown; readonly say: Say }): VNode | null {
  const told = toldIn(body);
  if (told.length === 0) return null;
  return (
    <ul class="plain">
      {told.map(({ name, before, after }) => (
        <li key={name}>
          {name === '' ? null : <span class="muted">{name}: </span>}
          {saidValue(before, after, say)}
        </li>
      ))}
    </ul>
  );
}

function saidValue(before: string | null, after: string | null, say: Say): string {
  if (before === null) return after ?? '';
  return after === null ? say('audit.gone', { before }) : say('audit.changed', { before, after });
}

export function toldIn(body: unknown): Told[] {
  if (body === null || body === undefined) return [];
  if (!isFields(body)) return [{ name: '', before: null, after: textOf(body) }];
  if (!('before' in body && 'after' in body))
    return Object.entries(body).flatMap(([name, value]) => (value === null ? [] : [{ name, before: null, after: textOf(value) }]));
  const [before, after] = [fieldsOf(body.before), fieldsOf(body.after)];
  const names = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return names
    .map((name) => ({ name, before: textOf(before[name]), after: textOf(after[name]) }))
    .filter(({ before: was, after: is }) => was !== is);
}

function isFields(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function fieldsOf(value: unknown): Readonly<Record<string, unknown>> {
  return isFields(value) ? value : value === null || value === undefined ? {} : { '': value };
}

/** Null where there is nothing. */
function textOf(value: unknown): string | null {
  if (value === null || value === undefined) return null;
  return typeof value === 'string' ? value : JSON.stringify(value);
}
