// The editor of a file: puts a text view in the place of the text area, has the text checked and played while it is written, and saves
// it without leaving the page. Without this script the page is a form. Next: editing/text-view.ts, editing/phone.ts.

import type { CompletionSource } from '@codemirror/autocomplete';
import type { CheckedText, FileSchema, SavedText } from '../flows/answers.ts';
import { showChecked } from './editing/check.ts';
import { completionSource } from './editing/completion.ts';
import { openPhone } from './editing/phone.ts';
import { afterPause, oneAtATime, post } from './editing/post.ts';
import { goToLine, openTextView } from './editing/text-view.ts';

const typingPauseMilliseconds = 500;

const find = <E extends HTMLElement>(selector: string): E => document.querySelector<E>(selector) as E;
const form = find<HTMLFormElement>('#edit-form');
const [area, state, below] = [find<HTMLTextAreaElement>('#edit-text'), find('#edit-state'), find('#edit-checked')];
const [file, save] = [find<HTMLInputElement>('#edit-form [name=file]'), find<HTMLInputElement>('#edit-form [name=save]')];
const words = form.dataset as Readonly<Record<'check' | 'schema' | 'why' | 'fix' | 'unsaved' | 'checking' | 'failed', string>>;

let saved = area.value;
let complete: CompletionSource = () => null;
const host = document.createElement('div');
host.className = 'edit-host';
area.after(host);
area.hidden = true;
find('label[for=edit-text]').hidden = true;
find('#edit-check-link').hidden = true;
find('#edit-keys').hidden = false;

const view = openTextView({
  host,
  text: area.value,
  attributes: { 'aria-label': find('label[for=edit-text]').textContent ?? '', 'aria-describedby': 'edit-keys' },
  complete: (context) => complete(context),
  changed: () => {
    say(words.unsaved);
    changedForAMoment();
  },
  save: () => form.requestSubmit(),
});
const text = (): string => view.state.doc.toString();
const say = (what: string): void => {
  state.textContent = what;
};

const check = oneAtATime(async () => {
  const asked = text();
  below.setAttribute('aria-busy', 'true');
  try {
    const checked = await post<CheckedText>(words.check, { file: file.value, text: asked });
    // What was typed meanwhile is checked next; its lines may be others.
    if (asked === text()) showChecked(view, below, checked, words);
  } catch {
    say(words.failed);
  }
  below.removeAttribute('aria-busy');
});
const play = openPhone({ phone: find('#phone'), file: file.value, text, failed: words.failed });
const changedForAMoment = afterPause(typingPauseMilliseconds, () => {
  play();
  check();
});

form.addEventListener('submit', (event) => {
  event.preventDefault();
  void keepText();
});

async function keepText(): Promise<void> {
  const asked = text();
  area.value = asked;
  try {
    const outcome = await post<SavedText>(form.action, { as: 'json', file: file.value, save: save.value, text: asked });
    saved = outcome.kind === 'saved' ? asked : text();
    // Somebody else saved it: the page of the server shows both.
    if (outcome.kind === 'overtaken') return form.submit();
    // Of both forms: what saves it, and what throws it away.
    for (const one of document.querySelectorAll<HTMLInputElement>('[name=save]')) one.value = String(outcome.save);
    say(asked === text() ? outcome.said : words.unsaved);
  } catch {
    say(words.failed);
  }
}

addEventListener('beforeunload', (event) => {
  if (text() !== saved) event.preventDefault();
});
below.addEventListener('click', (event) => {
  const line = (event.target as HTMLElement).closest<HTMLElement>('[data-line]')?.dataset.line;
  if (line === undefined) return;
  event.preventDefault();
  goToLine(view, Number(line));
});

if (form.dataset.line !== undefined) goToLine(view, Number(form.dataset.line));
play();
check();
const response = await fetch(words.schema, { headers: { accept: 'application/json' } });
if (response.ok) complete = completionSource((await response.json()) as FileSchema);
