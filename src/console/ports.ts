// What the console needs from the world. Joined in src/cli/console.ts. Next: route.ts, what a page is; console.ts, which has them all.

import type { Change } from '../authoring/changes/change.ts';
import type { Diagnostic } from '../authoring/diagnostic.ts';
import type { FlowMap } from '../authoring/flow-map.ts';
import type { DrawnBaby, GrowthCurves } from '../clinical/growth-curves.ts';
import type { Protocol } from '../clinical/protocol.ts';
import type { Accounts } from '../conversation/accounts.ts';
import type { InForce } from '../conversation/book.ts';
import type { Drafts } from '../conversation/drafts.ts';
import type { Channel, Receive, Roster } from '../conversation/ports.ts';
import type { Publications, PublishedFile, PublishOutcome } from '../conversation/publications.ts';
import type { RosterData } from '../conversation/roster.ts';
import type { Watch } from '../conversation/watch.ts';
import type { Say } from './words.ts';

export interface InUse extends InForce {
  /** Of the publication in force; 0: the files of the folder are. */
  readonly number: number;
  readonly files: readonly PublishedFile[];
  readonly protocol: Protocol;
  readonly curves: (baby: DrawnBaby, untilDays: number) => GrowthCurves | null;
}

/** One message of the phone beside the editor, and what came back. */
export interface Exchange {
  readonly sent: string;
  readonly reply: string;
  /** That the reply is sent in; a screen has none: 0. */
  readonly segments: number;
  /** Characters of the reply as its alphabet counts them. */
  readonly units: number;
  /** Of them, what fits its segments, or one screen. */
  readonly room: number;
  readonly ends: boolean;
}

export interface Play {
  readonly channel: Channel;
  readonly language: string;
  /** Everything sent so far, in order; by USSD the first is the dial, and so is every empty one. */
  readonly sent: readonly string[];
  /** Epoch milliseconds of the first message. */
  readonly at: number;
}

export type Played =
  | {
      readonly kind: 'played';
      readonly exchanges: readonly Exchange[];
      readonly languages: readonly { readonly tag: string; readonly name: string }[];
    }
  /** The files cannot be read. */
  | { readonly kind: 'unsound'; readonly diagnostics: readonly Diagnostic[] };

/** What one examination costs with nothing found. */
export interface Spent {
  /** Texts each way, or screens. */
  readonly exchanges: number;
  /** Of texts; by USSD there are none: 0. */
  readonly segmentsIn: number;
  readonly segmentsOut: number;
}

/** In one language by one channel, before an edit and after it. */
export interface CostChange {
  /** BCP-47. */
  readonly language: string;
  readonly channel: Channel;
  /** `quickest`: as much in each text as it holds. `all normal`: each question answered by itself. */
  readonly way: 'quickest' | 'all normal';
  readonly before: Spent;
  readonly after: Spent;
}

/** Work on files that takes more than a moment, away from the thread that answers phones. */
export interface Workshop {
  /** All of `pipit check`. */
  check(files: readonly PublishedFile[]): Promise<readonly Diagnostic[]>;
  play(files: readonly PublishedFile[], play: Play): Promise<Played>;
  /** Null: one of the two cannot be read. */
  changes(before: readonly PublishedFile[], after: readonly PublishedFile[]): Promise<readonly Change[] | null>;
  /** Where an examination costs other than before. Null: one of the two cannot be read, or comes to no result. */
  costs(before: readonly PublishedFile[], after: readonly PublishedFile[]): Promise<readonly CostChange[] | null>;
  /** Null: it cannot be read. */
  map(files: readonly PublishedFile[], flow: string): Promise<FlowMap | null>;
}

export type PublishedOutcome =
  | PublishOutcome
  | { readonly kind: 'refused'; readonly diagnostics: readonly Diagnostic[] }
  | { readonly kind: 'same'; readonly number: number }
  | { readonly kind: 'unknown' };

export interface Publishing {
  publish(
    files: readonly PublishedFile[],
    after: number,
    author: { readonly by: string; readonly note: string | null },
  ): Promise<PublishedOutcome>;
  /** Takes  after: what is in force in the author's eyes. to: a number; left out, what was in force before. */
  undo(after: number, author: { readonly by: string; readonly note: string | null }, to?: number): Promise<PublishedOutcome>;
}

export interface LiveRosterView extends Roster {
  data(): RosterData;
}

/** The roster as it is stored, and a whole one in its place. */
export interface RosterEdits {
  /** Number of the last import; 0 before the first. */
  read(): Promise<{ readonly number: number; readonly data: RosterData }>;
  /** How many lines it changed; 0: nothing was written. Null: there is a later import than was seen, and nothing was written. */
  import(data: RosterData, by: string, seen: number): Promise<number | null>;
}

export interface ConsoleParts {
  readonly accounts: Accounts;
  readonly drafts: Drafts;
  readonly publications: Publications;
  readonly publishing: Publishing;
  readonly watch: Watch;
  readonly workshop: Workshop;
  readonly inUse: () => InUse;
  readonly roster: LiveRosterView;
  readonly rosterEdits: RosterEdits;
  readonly receive: Receive;
  readonly say: Say;
  readonly now: () => number;
  readonly newToken: () => string;
  /** Folder of the built scripts and the style sheet. */
  readonly assets: string;
  /** True: cookies go over TLS only. */
  readonly isSecure: boolean;
  readonly log: Readonly<Record<'info' | 'warn' | 'error', (about: object, what: string) => void>>;
}
