// The editor of one YAML text: numbers, search, completion, what check says at its lines. Colours are those of the page, here and in
// src/console/flows/flows.css. Next: editor.ts, which puts it in the place of the text area.

import { autocompletion, type CompletionSource, completionKeymap } from '@codemirror/autocomplete';
import { defaultKeymap, history, historyKeymap, indentWithTab } from '@codemirror/commands';
import { yaml } from '@codemirror/lang-yaml';
import { bracketMatching, HighlightStyle, indentOnInput, indentUnit, syntaxHighlighting } from '@codemirror/language';
import { lintGutter, lintKeymap } from '@codemirror/lint';
import { highlightSelectionMatches, search, searchKeymap } from '@codemirror/search';
import { EditorState } from '@codemirror/state';
import { drawSelection, EditorView, highlightActiveLine, highlightActiveLineGutter, keymap, lineNumbers } from '@codemirror/view';
import { tags } from '@lezer/highlight';

interface Given {
  readonly host: HTMLElement;
  readonly text: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly complete: CompletionSource;
  readonly changed: () => void;
  readonly save: () => void;
}

const colours = HighlightStyle.define([
  { tag: [tags.propertyName, tags.definition(tags.propertyName)], color: 'var(--accent)' },
  { tag: tags.string, color: 'var(--routine)' },
  { tag: [tags.lineComment, tags.comment], color: 'var(--muted)', fontStyle: 'italic' },
  { tag: [tags.separator, tags.punctuation, tags.squareBracket, tags.brace], color: 'var(--muted)' },
  { tag: tags.keyword, color: 'var(--refer)' },
]);

const paper = { backgroundColor: 'var(--paper)', color: 'var(--ink)' };
const sheet = { backgroundColor: 'var(--sheet)', color: 'var(--ink)' };
const theme = EditorView.theme({
  '&': paper,
  '.cm-content': { caretColor: 'var(--ink)' },
  '.cm-cursor': { borderLeftColor: 'var(--ink)' },
  '.cm-gutters': { backgroundColor: 'var(--sheet)', color: 'var(--muted)', borderRight: '1px solid var(--line)' },
  '.cm-panels': sheet,
  '.cm-tooltip': { ...sheet, border: '1px solid var(--muted)' },
  '.cm-tooltip-autocomplete ul li[aria-selected]': { backgroundColor: 'var(--accent)', color: 'var(--paper)' },
  '.cm-textfield, .cm-button': { ...paper, backgroundImage: 'none', border: '1px solid var(--muted)', fontSize: '1rem' },
  '.cm-panel input[type=checkbox]': { display: 'inline-block' },
  '.cm-panel .cm-textfield': { display: 'inline-block', width: 'auto' },
});

export function openTextView({ host, text, attributes, complete, changed, save }: Given): EditorView {
  const saves = {
    key: 'Mod-s',
    preventDefault: true,
    run: () => {
      save();
      return true;
    },
  };
  return new EditorView({
    parent: host,
    state: EditorState.create({
      doc: text,
      extensions: [
        lineNumbers(),
        lintGutter(),
        history(),
        drawSelection(),
        indentOnInput(),
        indentUnit.of('  '),
        bracketMatching(),
        highlightActiveLine(),
        highlightActiveLineGutter(),
        highlightSelectionMatches(),
        search({ top: true }),
        autocompletion({ override: [complete] }),
        yaml(),
        syntaxHighlighting(colours),
        theme,
        // Esc and then Tab leaves: the view itself lets the Tab after an Esc go.
        keymap.of([saves, ...completionKeymap, ...defaultKeymap, ...searchKeymap, ...historyKeymap, ...lintKeymap, indentWithTab]),
        EditorView.contentAttributes.of({ ...attributes, tabindex: '0' }),
        EditorView.updateListener.of((update) => {
          if (update.docChanged) changed();
        }),
      ],
    }),
  });
}

export function goToLine(view: EditorView, number: number): void {
  const line = view.state.doc.line(Math.min(Math.max(1, number), view.state.doc.lines));
  view.dispatch({ selection: { anchor: line.from }, effects: EditorView.scrollIntoView(line.from, { y: 'center' }) });
  view.focus();
}
