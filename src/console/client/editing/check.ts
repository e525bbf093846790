// What check says, put at its lines in the editor and below it. Next: src/console/flows/check-text.tsx, which is asked.

import { type Diagnostic as Mark, setDiagnostics } from '@codemirror/lint';
import type { EditorView } from '@codemirror/view';
import type { Diagnostic, Position } from '../../../authoring/diagnostic.ts';
import type { CheckedText } from '../../flows/answers.ts';

interface Words {
  readonly why: string;
  readonly fix: string;
}

/** Takes  checked: of the text that stands in the view now. */
export function showChecked(view: EditorView, below: HTMLElement, { diagnostics, html }: CheckedText, words: Words): void {
  below.innerHTML = html;
  const { doc } = view.state;
  const offset = ({ line, column }: Position): number => {
    const { from, to } = doc.line(Math.min(Math.max(1, line), doc.lines));
    return Math.min(from + Math.max(0, column - 1), to);
  };
  const marks = diagnostics.map((one): Mark => {
    const from = offset(one.range.start);
    const { severity } = one;
    return { from, to: Math.max(from, offset(one.range.end)), severity, message: one.what, renderMessage: () => said(one, words) };
  });
  view.dispatch(setDiagnostics(view.state, marks));
}

function said({ what, why, fix }: Diagnostic, words: Words): Node {
  const whole = element('span', '');
  whole.className = 'cm-said';
  const list = element('dl', '');
  list.append(element('dt', words.why), element('dd', why), element('dt', words.fix), element('dd', fix));
  whole.append(element('p', what), list);
  return whole;
}

function element(name: string, text: string): HTMLElement {
  const made = document.createElement(name);
  made.textContent = text;
  return made;
}
