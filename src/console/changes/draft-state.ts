// The draft held against what is in force: what it would change, in the order of what it can do to a baby; how its files differ, line
// by line; what it costs; what check says of it. And a mark of the draft as it was seen, so that nobody publishes what she did not look at.

import { createHash } from 'node:crypto';
import type { Change } from '../../authoring/changes/change.ts';
import type { Diagnostic } from '../../authoring/diagnostic.ts';
import type { DraftFile } from '../../conversation/drafts.ts';
import type { PublishedFile } from '../../conversation/publications.ts';
import { type Hunk, lineDiff } from '../diff/line-diff.ts';
import { overlay } from '../drafts/drafted.ts';
import type { ConsoleParts, CostChange } from '../ports.ts';

export interface DraftedFile {
  readonly draft: DraftFile;
  /** None: it is as in force. */
  readonly hunks: readonly Hunk[];
}

export interface DraftState {
  /** Of the publication that it is held against. */
  readonly number: number;
  readonly files: readonly DraftedFile[];
  /** Null: one of the two cannot be read. */
  readonly changes: readonly Change[] | null;
  /** Null: it could not be counted. */
  readonly costs: readonly CostChange[] | null;
  readonly diagnostics: readonly Diagnostic[];
  readonly mark: string;
}

export interface Seen {
  readonly files: readonly PublishedFile[];
  readonly drafts: readonly DraftFile[];
  readonly mark: string;
}

export async function seenDraft(parts: Pick<ConsoleParts, 'inUse' | 'drafts'>): Promise<Seen> {
  const drafts = await parts.drafts.read();
  const saves = drafts.map(({ name, save, at }) => [name, save, at]);
  const mark = createHash('sha256').update(JSON.stringify(saves.sort())).digest('base64url');
  return { files: overlay(parts.inUse().files, drafts), drafts, mark };
}

export async function draftState(parts: Pick<ConsoleParts, 'inUse' | 'drafts' | 'workshop'>): Promise<DraftState> {
  const { number, files: before } = parts.inUse();
  const { files: after, drafts, mark } = await seenDraft(parts);
  const texts = new Map(before.map(({ name, text }) => [name, text]));
  const files = drafts.map((draft) => ({ draft, hunks: lineDiff(texts.get(draft.name) ?? '', draft.text) }));
  if (files.every(({ hunks }) => hunks.length === 0)) return { number, files, changes: [], costs: [], diagnostics: [], mark };
  const { workshop } = parts;
  const [changes, diagnostics, costs] = await Promise.all([
    workshop.changes(before, after),
    workshop.check(after),
    workshop.costs(before, after),
  ]);
  return { number, files, changes, costs, diagnostics, mark };
}
