// The two commands that reckon and touch no store, with their options: `pipit cost` and `pipit simulate`.
// Next: cost.ts, simulate.ts.

import type { Command } from 'commander';
import type { Config } from './config.ts';
import type { CostFlags } from './cost.ts';
import type { SimulateFlags } from './plan-flags.ts';

interface Around {
  readonly configOrExit: (overrides: Readonly<Record<string, string | undefined>>) => Config;
  readonly run: (work: () => Promise<number>) => Promise<void>;
  readonly print: (line: string) => void;
}

export function addReckoning(program: Command, { configOrExit, run, print }: Around): void {
  program
    .command('cost')
    .description('what an examination costs in texts, segments, screens, keys and minutes, and what an edit changed')
    .option('--flows <folder>', 'folder of flows and protocol')
    .option('--locales <folder>', 'folder of wording')
    .option('--language <tag>', 'this language only')
    .option('--prevalence <file>', 'how often each sign is met; else the invented table of the demonstration')
    .option('--walks <count>', 'examinations that the expected cost is the mean of', Number, 100)
    .option('--seed <number>', 'of their chance', Number, 1)
    .option('--seconds-per-screen <seconds>', 'to read and answer one text or screen', Number, 8)
    .option('--seconds-per-call <seconds>', 'longest USSD call', Number, 180)
    .option('--against-flows <folder>', 'say what differs from these flows')
    .option('--against-locales <folder>', 'say what differs from this wording')
    .option('--format <form>', 'text or json', 'text')
    .action((options: CostFlags & { flows?: string; locales?: string }) =>
      run(async () => {
        const config = configOrExit({
          PIPIT_FLOWS: options.flows ?? process.env.PIPIT_FLOWS,
          PIPIT_LOCALES: options.locales ?? process.env.PIPIT_LOCALES,
          PIPIT_ALLOW_DRAFTS: process.env.PIPIT_ALLOW_DRAFTS ?? '1',
        });
        return (await import('./cost.ts')).cost(config, options, print);
      }),
    );

  program
    .command('simulate')
    .description('plan for a district, a country or the world: turns a second, texts, cost, memory, register, nurses on call')
    .requiredOption('--births <number>', 'births a year', Number)
    .option('--contacts <number>', 'examinations of each baby; else as contacts.yaml plans them', Number)
    .option('--peak <factor>', 'the busiest hour over the mean one', Number)
    .option('--languages <shares>', 'such as en:0.6,hi:0.4; else the base language')
    .option('--channels <shares>', 'such as sms:0.7,ussd:0.3; else all by text')
    .option('--prevalence <file>', 'how often each sign is met; else the invented table of the demonstration')
    .option('--level <share>', 'of urgent alerts that are to be taken in time', Number)
    .option('--within <minutes>', 'in which they are to be taken; else taken-within of follow-up.yaml', Number)
    .option('--busy <minutes>', 'that a nurse is busy with one alert', Number)
    .option('--desks <count>', 'desks that share the alerts, each with its own nurses', Number, 1)
    .option('--price-in <amount>', 'of a segment from a phone', Number)
    .option('--price-out <amount>', 'of a segment to a phone', Number)
    .option('--price-call <amount>', 'of a USSD call', Number)
    .option('--currency <name>', 'printed behind the cost')
    .option('--walks <count>', 'examinations by chance, in each language and channel', Number, 100)
    .option('--seed <number>', 'of all chance', Number, 1)
    .option('--seconds-per-screen <seconds>', 'to read and answer one screen', Number, 8)
    .option('--seconds-per-call <seconds>', 'longest USSD call', Number, 180)
    .option('--format <form>', 'text or json', 'text')
    .action((options: SimulateFlags) =>
      run(async () => {
        const config = configOrExit({ PIPIT_ALLOW_DRAFTS: process.env.PIPIT_ALLOW_DRAFTS ?? '1' });
        return (await import('./simulate.ts')).simulate(config, options, print);
      }),
    );
}
