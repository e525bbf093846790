// `pipit publish`: the files of a folder go into force for all phones, or earlier ones come back. Next: publishing.ts.

import { DateTime } from 'luxon';
import type { Publication, PublishedFile } from '../conversation/publications.ts';
import { publicationsIn } from '../register/publications.ts';
import type { Config } from './config.ts';
import { filesOf, renderErrors } from './load-published.ts';
import { prove } from './prove.ts';
import { type PublishingParts, publishFiles, type Undone, undo } from './publishing.ts';
import { withRegister } from './register-database.ts';

export interface PublishOptions {
  readonly by?: string;
  readonly note?: string;
  readonly undo?: boolean;
  readonly to?: number;
  readonly list?: boolean;
}

const listed = 20;
type Print = (line: string) => void;

/**
 * Takes    config: its folders are what is published. standing: the folders in force while nothing is published.
 * Returns  the exit code: 0, or 1 when nothing was published.
 */
export function publish(config: Config, standing: Config, options: PublishOptions, now: number, print: Print): Promise<number> {
  return withRegister(config, async (database) => {
    const store = publicationsIn(database);
    if (options.list === true) return list(await store.list(listed), print);
    if (options.by === undefined) {
      print('Say who publishes, for the audit trail: --by NAME.');
      return 1;
    }
    const author = { by: options.by, at: now, note: options.note ?? null };
    const parts: PublishingParts = { store, folder: () => filesOf(standing), prove: async (files) => prove(files).diagnostics };
    const files = filesOf(config);
    const isUndo = options.undo === true || options.to !== undefined;
    const outcome = isUndo ? await undo(author, parts, options.to) : await publishFiles(files, await store.last(), author, parts);
    return tell(outcome, isUndo && outcome.kind === 'refused' ? await store.files(options.to ?? (await store.last()) - 1) : files, print);
  });
}

function tell(outcome: Undone, files: readonly PublishedFile[], print: Print): number {
  switch (outcome.kind) {
    case 'published':
      print(`Publication ${outcome.number} is in force; servers take it over within seconds. To go back: pipit publish --undo --by NAME.`);
      return 0;
    case 'same':
      print(`Nothing has changed: these files are in force${outcome.number === 0 ? '' : ` as publication ${outcome.number}`}.`);
      return 0;
    case 'refused':
      for (const error of renderErrors(outcome.diagnostics, files)) print(`${error}\n`);
      print('Nothing was published. Mend what is said above and publish again.');
      return 1;
    case 'overtaken':
      print(`${outcome.by.by} published number ${outcome.by.number} in this moment. Nothing was published; look at it and publish again.`);
      return 1;
    case 'unknown':
      print('There is no such publication. Those that there are: pipit publish --list.');
      return 1;
  }
}

function list(publications: readonly Publication[], print: Print): number {
  for (const { number, version, by, at, note, restores } of publications)
    print(
      [
        `${number}  ${DateTime.fromMillis(at, { zone: 'utc' }).toISO({ suppressMilliseconds: true })}  ${version}  ${by}`,
        ...(restores === null ? [] : [`brings back ${restores}`]),
        ...(note === null ? [] : [note]),
      ].join('  '),
    );
  if (publications.length === 0) print('Nothing is published yet: the files of the folder are in force.');
  return 0;
}
