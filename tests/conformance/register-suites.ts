// All that every register promises, kind by kind. Next: register-pglite.test.ts, register-postgres.test.ts.

import { entriesConformance, type RegisterHarness } from './register.ts';
import { alertsConformance } from './register-alerts.ts';
import { babiesConformance } from './register-babies.ts';
import { begunConformance } from './register-begun.ts';
import { dueConformance } from './register-due.ts';
import { referralsConformance } from './register-referrals.ts';
import { reportsConformance } from './register-reports.ts';
import { textsConformance } from './register-texts.ts';

export function registerConformance(store: string, harness: () => RegisterHarness): void {
  entriesConformance(store, harness);
  alertsConformance(store, harness);
  referralsConformance(store, harness);
  babiesConformance(store, harness);
  begunConformance(store, harness);
  dueConformance(store, harness);
  textsConformance(store, harness);
  reportsConformance(store, harness);
}
