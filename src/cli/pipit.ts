#!/usr/bin/env node
// The command line: which commands there are and their options. Each command is a file of its own beside this one, loaded when it
// is asked for, so that none waits for what another needs.

import { dirname, join } from 'node:path';
import { text } from 'node:stream/consumers';
import { fileURLToPath } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import { Command } from 'commander';
import type { AccountOptions } from './account.ts';
import { type Config, readConfig } from './config.ts';
import type { EraseOptions } from './erase.ts';
import type { ExportOptions } from './export.ts';
import type { PublishOptions } from './publish.ts';
import { addReckoning } from './reckoning-commands.ts';
import type { ReportOptions } from './report.ts';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const print = (line: string): void => {
  process.stdout.write(`${line}\n`);
};

// A reader that closes early, such as `head`, ends the output and is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => process.exit(error.code === 'EPIPE' ? 0 : couldNotRun));

/** Exit code of a command that could not run at all. */
const couldNotRun = 2;

function configOrExit(overrides: Readonly<Record<string, string | undefined>> = {}): Config {
  const outcome = readConfig({ ...process.env, ...overrides }, root);
  if (outcome.kind === 'config') return outcome.config;
  process.stderr.write(`Settings that cannot be used:\n${outcome.faults.join('\n')}\n`);
  process.exit(couldNotRun);
}

async function run(work: () => Promise<number>): Promise<void> {
  try {
    process.exitCode = await work();
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = couldNotRun;
  }
}

const program = new Command('pipit').description('A conversational check-in for examining newborns by SMS and USSD.');

program
  .command('phone')
  .description('a phone in the terminal to try the dialogs on')
  .option('--ussd', 'dial instead of texting')
  .option('--as <number>', 'whose phone it is, from the roster')
  .option('--script <file>', 'play a written conversation; exit code 1 when what comes back differs')
  .option('--price <amount>', 'price of one segment', Number, 0.01)
  .option('--keep', 'keep sessions in the data folder from one run to the next')
  .action((options) => run(async () => (await import('./phone.ts')).phone(configOrExit(), options, print)));

/** Ends on the usual signals, after what is in flight. */
function closeOnSignal(running: { close(): Promise<void> }): number {
  const stop = (): void => {
    void running.close().then(() => process.exit(0));
  };
  process.once('SIGTERM', stop);
  process.once('SIGINT', stop);
  return 0;
}

const development = ['--development', 'check no signatures, send no texts: for trying on this machine only'] as const;
const developing = (options: { development?: boolean }): Config =>
  configOrExit(options.development === true ? { PIPIT_DEVELOPMENT: '1' } : {});

program
  .command('serve')
  .description('serve the webhooks, and do what is due')
  .option(...development)
  .action((options) =>
    run(async () => {
      const { serve } = await import('./serve.ts');
      return closeOnSignal(await serve(developing(options)));
    }),
  );

program
  .command('work')
  .description('do what is due: texts, reminders, alerts that nobody took; beside PIPIT_WORK=0 pipit serve')
  .option(...development)
  .action((options) =>
    run(async () => {
      const { work } = await import('./work.ts');
      return closeOnSignal(await work(developing(options)));
    }),
  );

program
  .command('assess')
  .description('interpret cases in JSON from standard input: one case, an array, or one a line')
  .option('--lines', 'one case a line, one result a line', false)
  .action((options: { lines: boolean }) =>
    run(async () => {
      const { loadForAssess, runAssess } = await import('./assess.ts');
      const { stdout, stderr, exitCode } = runAssess(await text(process.stdin), {
        protocol: await loadForAssess(configOrExit().flows),
        lines: options.lines,
      });
      process.stderr.write(stderr);
      process.stdout.write(stdout);
      return exitCode;
    }),
  );

program
  .command('check')
  .description('load flows, protocol and wording, and say what is wrong with them')
  .option('--flows <folder>', 'folder of flows and protocol')
  .option('--locales <folder>', 'folder of wording')
  .option('--sign-off', 'print what must be signed off before live use, and where it is used')
  .option('--format <form>', 'text or json', 'text')
  .action((options: { flows?: string; locales?: string; format: string; signOff?: boolean }) =>
    run(async () => {
      const config = configOrExit({
        PIPIT_FLOWS: options.flows ?? process.env.PIPIT_FLOWS,
        PIPIT_LOCALES: options.locales ?? process.env.PIPIT_LOCALES,
      });
      if (options.signOff === true) return (await import('./sign-off.ts')).signOff(config, print);
      // All of it runs once: code that is made fast for a later that never comes costs more than it saves.
      setFlagsFromString('--no-opt');
      return (await import('./check.ts')).check(config, options.format === 'json' ? 'json' : 'text', print);
    }),
  );

program
  .command('publish')
  .description('put flows, protocol and wording in force for all phones, or bring earlier ones back')
  .option('--flows <folder>', 'folder of flows and protocol')
  .option('--locales <folder>', 'folder of wording')
  .option('--by <name>', 'who publishes, for the audit trail')
  .option('--note <words>', 'what has changed and why')
  .option('--undo', 'bring back what was in force before', false)
  .option('--to <number>', 'bring back this publication', Number)
  .option('--list', 'the last publications', false)
  .action((options: PublishOptions & { flows?: string; locales?: string }) =>
    run(async () => {
      const standing = configOrExit();
      const config = { ...standing, flows: options.flows ?? standing.flows, locales: options.locales ?? standing.locales };
      return (await import('./publish.ts')).publish(config, standing, options, Date.now(), print);
    }),
  );

addReckoning(program, { configOrExit, run, print });

program
  .command('rows')
  .description('every row of the clinical reference: what carries it, what proves it, or why it has no rule')
  .option('--into <file>', 'write the table between the marks of this document')
  .action((options: { into?: string }) => run(async () => (await import('./rows.ts')).rows(configOrExit(), root, options.into, print)));

program
  .command('schema [file] [path...]')
  .description('JSON Schemas of the files that a coordinator edits; of one file, what may be written at a place in it')
  .option('--into <folder>', 'write them there, for an editor')
  .action((file: string | undefined, path: string[], options: { into?: string }) =>
    run(async () => (await import('./schema.ts')).schema(file, path, options.into, print)),
  );

const roster = program.command('roster').description('people, facilities and rota, as four tables in a folder');
roster
  .command('check <folder>')
  .description('say what is wrong with the tables')
  .action((folder: string) => run(async () => (await import('./roster.ts')).checkRoster(folder, print)));
roster
  .command('import <folder>')
  .description('put the tables in place of the roster in the register, whole or not at all')
  .option('--by <name>', 'who imports, for the audit trail', 'pipit roster import')
  .action((folder: string, options: { by: string }) =>
    run(async () => (await import('./roster.ts')).importRoster(configOrExit(), folder, options.by, Date.now(), print)),
  );
roster
  .command('export <folder>')
  .description('write the roster in the register as tables')
  .action((folder: string) => run(async () => (await import('./roster.ts')).exportRoster(configOrExit(), folder, print)));

const account = program.command('account').description('who may open the console at /console');
const byWhom = ['--by <name>', 'who does it, for the audit trail', 'pipit account'] as const;
account
  .command('add <name>')
  .description('a new account, or another role, number and password for one; the password from PIPIT_PASSWORD or standard input')
  .requiredOption('--role <role>', 'nurse or coordinator')
  .option('--phone <number>', 'whose number on the roster it is: says which facilities it sees')
  .option(...byWhom)
  .action((name: string, options: AccountOptions) =>
    run(async () => {
      const { addAccount, askPassword } = await import('./account.ts');
      const password = process.env.PIPIT_PASSWORD ?? (await askPassword(`Password for ${name}: `));
      return addAccount(configOrExit(), name, options, password, Date.now(), print);
    }),
  );
account.command('list').action(() => run(async () => (await import('./account.ts')).listAccounts(configOrExit(), print)));
account
  .command('remove <name>')
  .option(...byWhom)
  .action((name: string, { by }: { by: string }) =>
    run(async () => (await import('./account.ts')).removeAccount(configOrExit(), name, by, Date.now(), print)),
  );

program
  .command('report')
  .description('figures of the register per facility and week: examinations, urgency, minutes to help, contacts, texts')
  .option('--from <day>', 'first day, like 2026-11-02; else four weeks to the end of this one')
  .option('--until <day>', 'last day')
  .option('--facility <id>', 'this one only')
  .option('--format <form>', 'text, csv or json', 'text')
  .option('--not-delivered', 'list the texts that reached nobody, or of which nobody knows', false)
  .action((options: ReportOptions) =>
    run(async () =>
      (await import('./report.ts')).report(configOrExit(), options, Date.now(), (text) => {
        process.stdout.write(text);
      }),
    ),
  );

program
  .command('reseal')
  .description('seal names and card numbers anew with the first of PIPIT_KEYS')
  .action(() => run(async () => (await import('./reseal.ts')).reseal(configOrExit(), print)));

program
  .command('erase [code]')
  .description('erase a baby from the register, or all seen last long ago; counts stay')
  .option('--facility <id>', 'where the code is from')
  .option('--id <id>', 'which baby, where several have the code')
  .option('--older-than <days>', 'all that were seen last before so many days and have nothing open', Number)
  .option('--by <name>', 'who erases, for the audit trail')
  .option('--yes', 'erase; without it nothing is', false)
  .action((code: string | undefined, options: EraseOptions) =>
    run(async () => (await import('./erase.ts')).erase(configOrExit(), code, options, Date.now(), print)),
  );

program
  .command('backup')
  .description('copy the whole register into one file, of one instant')
  .requiredOption('--to <file>', 'write to this file, which must not be there yet')
  .action((options: { to: string }) =>
    run(async () => (await import('./backup.ts')).backup(configOrExit(), options.to, Date.now(), print)),
  );

program
  .command('restore')
  .description('put a backup into the register, whole or not at all; stop servers before')
  .requiredOption('--from <file>', 'what pipit backup wrote')
  .option('--over', 'lose what is in the register now; without it only an empty one is filled', false)
  .action((options: { from: string; over: boolean }) =>
    run(async () => (await import('./backup.ts')).restore(configOrExit(), options.from, options.over, print)),
  );

program
  .command('export')
  .description('the register of a facility and month, as a table for a spreadsheet or a FHIR R4 bundle')
  .requiredOption('--facility <id>', 'which facility, from the roster')
  .requiredOption('--month <month>', 'which month, like 2026-11')
  .option('--format <form>', 'csv or fhir', 'csv')
  .option('--language <tag>', 'language of headings and findings', 'en')
  .option('--de-identified', 'without names, numbers, codes and exact times; needs PIPIT_EXPORT_SECRET', false)
  .option('--out <file>', 'write to this file, which must not be there yet')
  .action((options: ExportOptions) =>
    run(async () => {
      const { exportMonth } = await import('./export.ts');
      const { stdout, stderr, exitCode } = await exportMonth(configOrExit(), options, process.env.PIPIT_EXPORT_SECRET);
      process.stderr.write(stderr);
      process.stdout.write(stdout);
      return exitCode;
    }),
  );

await program.parseAsync();
