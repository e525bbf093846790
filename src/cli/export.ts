// `pipit export`: the register of a facility and month, for a coordinator's spreadsheet or for a health record.
// Next: src/register/export/month.ts.

import { writeFileSync } from 'node:fs';
import { bindBook, type Published } from '../conversation/book.ts';
import { rosterOf } from '../conversation/roster.ts';
import { say } from '../messages/catalogue.ts';
import { deIdentify, shortestSecret } from '../register/export/de-identify.ts';
import { bundleOf } from '../register/export/fhir-bundle.ts';
import { boundsOf, type RegisterMonth } from '../register/export/month.ts';
import { readMonth } from '../register/export/read-month.ts';
import { tableOf } from '../register/export/table.ts';
import { rosterStoreIn } from '../register/roster.ts';
import type { Config } from './config.ts';
import { loadFacilityNeedsBirths, loadFhirCodes } from './load-export-data.ts';
import { loadPublished } from './load-published.ts';
import { withRegister } from './register-database.ts';
import { writeTable } from './write-table.ts';

export interface ExportOptions {
  readonly facility: string;
  readonly month: string;
  readonly format: string;
  readonly language: string;
  readonly deIdentified: boolean;
  readonly out?: string | undefined;
}

export interface ExportOutcome {
  readonly exitCode: number;
  readonly stdout: string;
  readonly stderr: string;
}

const refuse = (what: string): ExportOutcome => ({ exitCode: 1, stdout: '', stderr: `${what}\n` });

/** Takes  secret: PIPIT_EXPORT_SECRET, by which the ids of a de-identified export are hashed. */
export async function exportMonth(config: Config, options: ExportOptions, secret: string | undefined): Promise<ExportOutcome> {
  const { format, deIdentified, out } = options;
  if (format !== 'csv' && format !== 'fhir') return refuse(`"${format}" is no format. Write --format csv or --format fhir.`);
  if (deIdentified && (secret === undefined || secret.length < shortestSecret)) {
    return refuse(
      `A de-identified export needs PIPIT_EXPORT_SECRET, at least ${shortestSecret} characters: without a secret anybody could try out which baby an id stands for. Set it to a random text, keep it, and give it to nobody who gets the export.`,
    );
  }
  const published = loadPublished(config);
  if (!published.catalogues.byTag.has(options.language)) {
    const tags = [...published.catalogues.byTag.keys()].sort().join(', ');
    return refuse(`"${options.language}" is not served; these are: ${tags}. A draft is served with PIPIT_ALLOW_DRAFTS=1.`);
  }
  return withRegister(config, async (database) => {
    const { data } = await rosterStoreIn(database).read();
    const roster = rosterOf(data);
    const facility = roster.facility(options.facility);
    if (facility === undefined) {
      const known = data.facilities.map(({ id }) => id).join(', ') || 'none, until a roster is imported';
      return refuse(`The roster has no facility "${options.facility}". It has: ${known}.`);
    }
    const span = boundsOf(options.month, facility.zone);
    if (span === null) return refuse(`"${options.month}" is no month. Write it like 2026-11.`);
    const read: RegisterMonth = {
      facility: { id: facility.id, name: facility.name },
      zone: facility.zone,
      month: options.month,
      precision: 'instant',
      ...(await readMonth(database, facility.id, span)),
    };
    const month = deIdentified && secret !== undefined ? deIdentify(read, secret, loadFacilityNeedsBirths(config.flows)) : read;
    const parts = {
      ...wordsOf(published, options.language),
      facilityName: (id: string) => roster.facility(id)?.name ?? id,
      workerName: (phone: string) => roster.find(phone)?.name ?? phone,
    };
    const text =
      format === 'csv'
        ? writeTable(tableOf(month, parts))
        : `${JSON.stringify(bundleOf({ ...parts, month, codes: loadFhirCodes(config.flows) }), null, 2)}\n`;
    if (out === undefined) return { exitCode: 0, stdout: text, stderr: '' };
    // Only its owner may read it, and nothing that is there is overwritten.
    writeFileSync(out, text, { flag: 'wx', mode: 0o600 });
    return { exitCode: 0, stdout: '', stderr: `${out}: ${month.examinations.length} examinations of ${month.babies.length} babies.\n` };
  });
}

function wordsOf(published: Published, language: string) {
  const { findings, has, isBox } = bindBook(published);
  const speak: Parameters<typeof tableOf>[1]['speak'] = (key, values) => say(published.catalogues, language, key, values);
  return { findings, has, isBox, speak };
}
