// The pages about babies: alerts and referrals as they stand, and what a nurse does about them.

import { everyone, type Route } from '../route.ts';
import { act } from './act.ts';
import { alertsNow, alertsPage } from './alerts-page.tsx';

export const careRoutes: readonly Route[] = [
  { method: 'get', path: '/', roles: everyone, answer: (visit) => alertsPage(visit) },
  { method: 'get', path: '/alerts/now', roles: everyone, answer: alertsNow },
  { method: 'post', path: '/alerts/act', roles: everyone, answer: act },
];
