// Where a file is edited, and where a flow is drawn. Next: routes.ts.

import { root } from '../route.ts';

export function editPath(file: string, line?: number): string {
  return `/edit?file=${encodeURIComponent(file)}${line === undefined ? '' : `&line=${line}`}`;
}

export function editLink(file: string, line?: number): string {
  return `${root}${editPath(file, line)}`;
}

export function mapLink(flow: string): string {
  return `${root}/flows/map?flow=${encodeURIComponent(flow)}`;
}
