// The map of the first-day examination as a page: everything that is drawn is also said, in the order asked.

import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { mapOf } from '../../src/authoring/flow-map.ts';
import { FlowMapView } from '../../src/console/map/flow-map.tsx';
import { flowFrom, flowText } from '../authoring/shipped-flow.ts';
import { defaultProtocol } from '../support/default-protocol.ts';
import { sayKey } from './words-of-keys.ts';

const map = mapOf(flowFrom(flowText), { name: 'flows/first-day-exam.yaml', text: flowText }, defaultProtocol);
const linkTo = (file: string, line: number): string => `/edit/${file}#${line}`;
const page = renderToString(h(FlowMapView, { map, say: sayKey, linkTo }));

/** The list items of the map, each as it stands in the page. */
const items = page.split('<li class="map-step').slice(1);

describe('the page of a map', () => {
  it('is an ordered list with an item a step', () => {
    expect(page).toMatch(/<section class="map" aria-label="map.title flow=first-day-exam">/);
    expect(page.match(/<ol /g)).toHaveLength(1);
    expect(items).toHaveLength(map.steps.length);
  });

  it('links every step to its line, and says its line, what stands before it and what opens it', () => {
    for (const [at, step] of map.steps.entries()) {
      const item = items[at]!;
      expect(item).toContain(`<a href="/edit/flows/first-day-exam.yaml#${step.line}">${step.id}</a>`);
      expect(item).toContain(`map.line line=${step.line}`);
      expect(item.includes('map.only-if')).toBe(step.guard !== null);
      for (const { step: opener, by } of step.openedBy) expect(item).toContain(`map.opened-by.${by} step=${opener}`);
    }
  });

  it('says every danger with where it leads, and draws one arrow for each way', () => {
    for (const [at, step] of map.steps.entries()) {
      const ways = [...new Set(step.exits.map(({ to }) => to))];
      const item = items[at]!;
      expect(item.match(/class="map-arrow"/g) ?? []).toHaveLength(ways.length);
      for (const way of ways) {
        const said = item.slice(item.indexOf(`<strong>map.exit.${way}</strong>`)).split('</ul>')[0];
        const names = step.exits.filter(({ to }) => to === way).map(({ of, value }) => (value === true ? of : `${of}: ${value}`));
        expect([...(said ?? '').matchAll(/<li>([^<]*)<\/li>/g)].map(([, name]) => name)).toEqual(
          names.map((name) => name.replaceAll('-', ' ')),
        );
      }
    }
  });

  it('names what is found as the page that holds it wishes', () => {
    const named = renderToString(h(FlowMapView, { map, say: sayKey, linkTo, nameOf: ({ of }) => `<${of}>` }));
    expect(named).toContain('<li>&lt;convulsion></li>');
  });

  it('draws nothing that a screen reader would meet, after the text of its step', () => {
    expect(page.match(/<svg(?![^>]*aria-hidden="true")/g)).toBeNull();
    for (const item of items) expect(item.indexOf('class="map-rail"')).toBeGreaterThan(item.indexOf('</a>'));
  });
});
