// The thread of the workshop: reads, proves and plays files that are sent to it, so that the thread that answers phones never waits
// for them. What was read last is kept, since an author plays the same files over and over. Next: workshop.ts, the other side.

import { parentPort } from 'node:worker_threads';
import type { Edition as Compared } from '../authoring/changes/change.ts';
import { changesBetween } from '../authoring/changes/changes-between.ts';
import { mapOf } from '../authoring/flow-map.ts';
import { interpret } from '../clinical/interpret.ts';
import type { CostChange, Play, Played } from '../console/ports.ts';
import { bindBook, type Published } from '../conversation/book.ts';
import { afterShown, compose } from '../conversation/compose.ts';
import type { PublishedFile } from '../conversation/publications.ts';
import type { Book, Caller } from '../dialog/book.ts';
import { newSession, type Session } from '../dialog/session.ts';
import { takeTurn } from '../dialog/turn.ts';
import { measure } from '../messages/segments.ts';
import { bindPublished, versionOf } from './bind-published.ts';
import { type Proved, prove } from './prove.ts';
import { costChangesBetween } from './workshop-costs.ts';
import type { Job } from './workshop-job.ts';

interface Kept extends Proved {
  /** As the phone asks it; made when it is first played or counted. */
  published?: Published;
  book?: Book;
}

const keptEditions = 4;
const kept = new Map<string, Kept>();

/** Takes  trusted: true does without what runs the reference cases. */
function read(files: readonly PublishedFile[], trusted: boolean): Kept {
  const key = `${versionOf(files)}${trusted ? ' read' : ''}`;
  const known = kept.get(key);
  if (known !== undefined) return known;
  // What was proved was read as well; what was refused may still be read.
  const whole = trusted ? kept.get(versionOf(files)) : undefined;
  if (whole !== undefined && whole.edition !== null) return whole;
  const proved: Kept = { ...prove(files, { trusted }) };
  kept.set(key, proved);
  for (const old of [...kept.keys()].slice(0, Math.max(0, kept.size - keptEditions))) kept.delete(old);
  return proved;
}

/** Null: the files cannot be read. */
function boundOf(one: Kept, files: readonly PublishedFile[]): Published | null {
  if (one.edition === null) return null;
  one.published ??= bindPublished(one.edition, versionOf(files), true);
  return one.published;
}

function play(
  files: readonly PublishedFile[],
  { channel, language, sent, at, screen }: Play & Pick<Job & { kind: 'play' }, 'screen'>,
): Played {
  const one = read(files, true);
  const published = boundOf(one, files);
  if (published === null) return { kind: 'unsound', diagnostics: one.diagnostics };
  one.book ??= bindBook(published);
  const { book } = one;
  const { catalogues } = published;
  const caller: Caller = { phone: '', facility: '', facilityName: '', zone: 'UTC', nurse: '', language, mayInject: false };
  let session: Session = { ...newSession, cautioned: true };
  const exchanges = sent.map((text, place) => {
    const turn = takeTurn(session, { text, caller, dialled: channel === 'ussd' && (place === 0 || text === '') }, book, at + 1000 * place);
    const said = compose(turn.reply, channel, { catalogues, language: turn.session.language ?? language, screen });
    session = afterShown(turn.session, said.shown);
    const { segments, alphabet, units, perSegment } = measure(said.text);
    const room = channel === 'sms' ? segments * perSegment : screen[alphabet === 'gsm-7' ? 'gsm7' : 'ucs2'];
    return { sent: text, reply: said.text, segments: channel === 'sms' ? segments : 0, units, room, ends: turn.reply.ends };
  });
  return { kind: 'played', exchanges, languages: book.languages.map(({ tag, name }) => ({ tag, name })) };
}

function answer(job: Job): unknown {
  switch (job.kind) {
    case 'check':
      return read(job.files, false).diagnostics;
    case 'play':
      return play(job.files, { ...job.play, screen: job.screen });
    case 'changes': {
      const [before, after] = [job.before, job.after].map((files) => comparable(files));
      return before == null || after == null ? null : changesBetween(before, after);
    }
    case 'costs':
      return costChanges(job);
    case 'map': {
      const { edition } = read(job.files, true);
      const flow = edition?.flows.find(({ id }) => id === job.flow);
      const source = job.files.find(({ name }) => name === `flows/${job.flow}.yaml`);
      return edition == null || flow === undefined || source === undefined ? null : mapOf(flow, source, edition.protocol);
    }
  }
}

function costChanges({ before, after, screen }: Job & { readonly kind: 'costs' }): readonly CostChange[] | null {
  const [was, is] = [before, after].map((files) => boundOf(read(files, true), files));
  return was == null || is == null ? null : costChangesBetween(was, is, screen);
}

/** Null: the files cannot be read. */
function comparable(files: readonly PublishedFile[]): Compared | null {
  const { edition } = read(files, false);
  if (edition === null) return null;
  const { flows, catalogues, cases, protocol } = edition;
  return { sources: files, flows, catalogues, cases, interpret: (aCase) => interpret(protocol, aCase) };
}

export interface SaidByThread {
  readonly number: number;
  readonly result?: unknown;
  /** What broke, in its place. */
  readonly fault?: string;
}

const sayBack = (said: SaidByThread): void => parentPort?.postMessage(said);
parentPort?.on('message', ({ number, job }: { readonly number: number; readonly job: Job }) => {
  try {
    sayBack({ number, result: answer(job) });
  } catch (error) {
    sayBack({ number, fault: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
});
