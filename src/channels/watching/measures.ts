// What a machine that watches the server is shown: turns as they are answered, and how the stores and what waits in them stand, in the
// text format of OpenMetrics' forerunner that every collector reads. No phone number, no code, nothing of a baby.
// Next: watching.ts, the doors; alert-rules.yaml, what to ring somebody for.

import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client';
import type { Receive } from '../../conversation/ports.ts';
import type { Standing } from '../../conversation/watch.ts';
import { answers } from './answers.ts';

export interface MeasuresParts {
  readonly standing: (now: number) => Promise<Standing>;
  /** Whether each store answers, by its name. */
  readonly stores: Readonly<Record<string, () => Promise<unknown>>>;
  /** Whether the link to a message centre stands; left out: there is none to keep. */
  readonly isLinkUp?: () => boolean;
  /** Version of the published files in force. */
  readonly version: () => string;
  readonly now: () => number;
}

export interface Measures {
  /** Answers as it does, and counts. */
  measured(receive: Receive): Receive;
  page(): Promise<string>;
  readonly contentType: string;
}

/** Seconds; a gateway gives up after fifteen. */
const buckets = [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 15];

export function openMeasures({ standing, stores, version, now, isLinkUp }: MeasuresParts): Measures {
  const registry = new Registry();
  const registers = [registry];
  collectDefaultMetrics({ register: registry });
  const turns = new Counter({
    name: 'pipit_turns_total',
    help: 'Messages and screens, by channel and whether they were answered.',
    labelNames: ['channel', 'outcome'] as const,
    registers,
  });
  const seconds = new Histogram({
    name: 'pipit_turn_seconds',
    help: 'From the message to its answer.',
    labelNames: ['channel'] as const,
    buckets,
    registers,
  });
  const up = new Gauge({ name: 'pipit_store_up', help: '1: the store answers.', labelNames: ['store'] as const, registers });
  const files = new Gauge({ name: 'pipit_files_info', help: 'The published files in force.', labelNames: ['version'] as const, registers });
  const gauge = (name: string, help: string): Gauge => new Gauge({ name, help, registers });
  const link = gauge('pipit_link_up', '1: the link to the message centre stands. Not a number: none is kept.');
  const alertsOpen = gauge('pipit_alerts_open', 'Alerts that nobody has taken.');
  const alertsTaken = gauge('pipit_alerts_taken', 'Alerts that somebody has and that are not closed.');
  const alertWaits = gauge('pipit_alert_waits_seconds', 'How long the oldest alert that nobody has taken waits.');
  const textsDue = gauge('pipit_texts_due', 'Texts that wait to be sent.');
  const textWaits = gauge('pipit_text_waits_seconds', 'How long the oldest of them waits.');
  const urgentLost = gauge('pipit_urgent_texts_lost', 'Urgent texts that reached nobody and that no coordinator knows of yet.');
  const workWaits = gauge('pipit_work_waits_seconds', 'How late the work is that is due longest.');

  async function look(): Promise<void> {
    for (const [store, ask] of Object.entries(stores)) up.set({ store }, (await answers(ask)) ? 1 : 0);
    link.set(isLinkUp === undefined ? Number.NaN : Number(isLinkUp()));
    files.reset();
    files.set({ version: version() }, 1);
    const at = now();
    const stands = await standing(at).catch(() => null);
    // What is not known is not shown as if it were still so.
    const show = (one: Gauge, value: number | null | undefined): void => (value === undefined ? one.set(Number.NaN) : one.set(value ?? 0));
    const since = (from: number | null | undefined): number | null | undefined =>
      from === undefined || from === null ? from : Math.max(0, (at - from) / 1_000);
    show(alertsOpen, stands?.alertsOpen);
    show(alertsTaken, stands?.alertsTaken);
    show(alertWaits, since(stands?.alertOpenSince));
    show(textsDue, stands?.textsDue);
    show(textWaits, since(stands?.textDueSince));
    show(urgentLost, stands?.urgentTextsLost);
    show(workWaits, since(stands?.workDueSince));
  }

  return {
    contentType: registry.contentType,
    measured: (receive) => async (incoming) => {
      const { channel } = incoming;
      const end = seconds.startTimer({ channel });
      try {
        const outgoing = await receive(incoming);
        turns.inc({ channel, outcome: 'answered' });
        return outgoing;
      } catch (error) {
        turns.inc({ channel, outcome: 'failed' });
        throw error;
      } finally {
        end();
      }
    },
    page: async () => {
      await look();
      return registry.metrics();
    },
  };
}
