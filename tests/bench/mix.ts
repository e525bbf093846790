// The examinations that the bench plays, with what they are played against: the files as they ship, and one invented worker.

import { loadPublished } from '../../src/cli/load-published.ts';
import { bindInForce, type InForce } from '../../src/conversation/book.ts';
import type { Book, Caller } from '../../src/dialog/book.ts';
import { NURSE } from '../support/end-to-end-programme.ts';
import { root } from './bench.ts';
import { examinations } from './examinations.ts';

export interface Mix {
  readonly mix: readonly (readonly string[])[];
  readonly inForce: InForce;
  readonly book: Book;
  readonly worker: Caller;
}

let opened: Mix | undefined;

export function openMix(): Mix {
  if (opened !== undefined) return opened;
  const inForce = bindInForce(loadPublished({ flows: `${root}flows`, locales: `${root}locales`, PIPIT_ALLOW_DRAFTS: true }));
  const { book } = inForce;
  const worker = {
    phone: '+254700000321',
    facility: 'marula',
    facilityName: 'Marula HC',
    zone: 'Africa/Nairobi',
    nurse: NURSE,
    language: 'en',
    mayInject: false,
  };
  opened = { mix: examinations(book, worker, Date.now()), inForce, book, worker };
  return opened;
}
