// What phones are asked and told, over the publications in the register: looked at again every few seconds, and taken over whole,
// between two messages. Before the first publication the files of the folder are in force. A set that this program cannot read, and a
// register that is away, leave the last one in use. Next: publish.ts, which publishes; prove.ts.

import type { Protocol } from '../clinical/protocol.ts';
import { bindInForce, type InForce, type Published } from '../conversation/book.ts';
import { faultName } from '../conversation/patience.ts';
import type { Publications, PublishedFile } from '../conversation/publications.ts';
import { bindPublished, type Edition, versionOf } from './bind-published.ts';
import type { Config } from './config.ts';
import { filesOf, renderErrors } from './load-published.ts';
import { prove } from './prove.ts';

export interface Current extends InForce {
  /** Of the publication in force; 0: the files of the folder are. */
  readonly number: number;
  readonly files: readonly PublishedFile[];
  readonly published: Published;
  readonly protocol: Protocol;
  readonly curves: Edition['curves'];
}

export interface LivePublished {
  readonly current: () => Current;
  /** Takes over what was published since; never throws. Calls at the same time share one look. */
  refresh(): Promise<void>;
}

export interface LivePublishedParts {
  readonly store: Pick<Publications, 'last' | 'files'>;
  readonly config: Pick<Config, 'flows' | 'locales' | 'PIPIT_ALLOW_DRAFTS'>;
  readonly log: Readonly<Record<'info' | 'warn' | 'error', (about: object, what: string) => void>>;
}

/** Errors: the register is away at the first look, or what is in force cannot be read, with every fault. */
export async function openLivePublished({ store, config, log }: LivePublishedParts): Promise<LivePublished> {
  const drafts = config.PIPIT_ALLOW_DRAFTS;
  const number = await store.last();
  let current = number === 0 ? bindCurrent(0, filesOf(config), drafts) : bindCurrent(number, await store.files(number), drafts, true);
  if (number > 0 && versionOf(filesOf(config)) !== current.published.version)
    log.info(
      { publication: number },
      'what was published is in force; the folder holds other files, which pipit publish would put in their place',
    );
  let unreadable = 0;
  let isAway = false;
  let looking: Promise<void> | null = null;
  const look = async (): Promise<void> => {
    try {
      const last = await store.last();
      if (last !== current.number && last !== unreadable) await takeOver(last);
      isAway = false;
    } catch (error) {
      if (!isAway) log.warn({ fault: faultName(error) }, 'the register is away; what was published last stays in use');
      isAway = true;
    }
  };
  const takeOver = async (last: number): Promise<void> => {
    const files = await store.files(last);
    try {
      current = bindCurrent(last, files, drafts, true);
      log.info({ publication: last, version: current.published.version }, 'a publication is in force now');
    } catch (error) {
      unreadable = last;
      log.error({ publication: last, fault: String(error) }, 'a publication cannot be read by this program; the one before stays in use');
    }
  };
  return {
    current: () => current,
    refresh: () => {
      looking ??= look().finally(() => {
        looking = null;
      });
      return looking;
    },
  };
}

/** Errors: every fault in the files, as one Error. */
function bindCurrent(number: number, files: readonly PublishedFile[], drafts: boolean, trusted = false): Current {
  const { diagnostics, edition } = prove(files, { trusted });
  if (edition !== null) {
    const published = bindPublished(edition, versionOf(files), drafts);
    return { number, files, published, protocol: edition.protocol, curves: edition.curves, ...bindInForce(published) };
  }
  throw new Error(`The flows, protocol or wording cannot be used.\n${renderErrors(diagnostics, files).join('\n\n')}`);
}
