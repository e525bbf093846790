// What the workshop's thread is asked to do. Only types. Next: workshop.ts, which asks; workshop-worker.ts, which does it.

import type { Play } from '../console/ports.ts';
import type { PublishedFile } from '../conversation/publications.ts';
import type { ScreenLimit } from '../messages/screens.ts';

type Files = readonly PublishedFile[];

export type Job =
  | { readonly kind: 'check'; readonly files: Files }
  | { readonly kind: 'play'; readonly files: Files; readonly play: Play; readonly screen: ScreenLimit }
  | { readonly kind: 'changes'; readonly before: Files; readonly after: Files }
  | { readonly kind: 'costs'; readonly before: Files; readonly after: Files; readonly screen: ScreenLimit }
  | { readonly kind: 'map'; readonly files: Files; readonly flow: string };
