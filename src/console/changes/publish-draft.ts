// Publishing the draft, and bringing a publication back. Both say what the coordinator had before her: what somebody published or
// drafted since is told, and nothing is done over her head. Next: draft-state.ts, what she saw; changes-routes.ts.

import type { ConsoleParts, PublishedOutcome } from '../ports.ts';
import { seenDraft } from './draft-state.ts';

export type Outcome =
  | PublishedOutcome
  /** Somebody wrote in the draft since the page was made. */
  | { readonly kind: 'drafted-since' }
  | { readonly kind: 'no-draft' };

export interface Asked {
  /** Number of the publication that was seen. */
  readonly after: number;
  /** Of the draft that was seen; see draft-state.ts. */
  readonly mark: string;
  readonly by: string;
  readonly note: string | null;
}

type Parts = Pick<ConsoleParts, 'inUse' | 'drafts' | 'publishing' | 'publications'>;

export async function publishDraft({ after, mark, by, note }: Asked, parts: Parts): Promise<Outcome> {
  const seen = await seenDraft(parts);
  if (seen.drafts.length === 0) return { kind: 'no-draft' };
  if (seen.mark !== mark) return { kind: 'drafted-since' };
  const outcome = await parts.publishing.publish(seen.files, after, { by, note });
  // What somebody saved while it was proved is a draft still.
  if (outcome.kind === 'published') for (const { name, save } of seen.drafts) await parts.drafts.discard(name, save);
  return outcome;
}

/** Takes  to: null, the publication before the one in force. */
export async function bringBack({ after, by, note }: Omit<Asked, 'mark'>, to: number | null, parts: Parts): Promise<Outcome> {
  const [newest] = await parts.publications.list(1);
  if (newest !== undefined && newest.number !== after) return { kind: 'overtaken', by: newest };
  return parts.publishing.undo(after, { by, note }, to ?? undefined);
}
