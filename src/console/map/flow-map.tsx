// Draws the map of a flow: an ordered list that reads well without its drawing, and beside each step what rail.tsx draws. It is
// looked at, not edited: every step is a link to its line in the file. Styles: flow-map.css. What is drawn: src/authoring/flow-map.ts.

import type { Exit, Found } from '../../authoring/danger-exits.ts';
import type { FlowMap, MapStep } from '../../authoring/flow-map.ts';
import { moreDigit } from '../../dialog/flow.ts';
import { Guard } from './guard.tsx';
import { ExitArrow, Rail } from './rail.tsx';
import type { SayWords } from './say-words.ts';

interface Given {
  readonly say: SayWords;
  readonly linkTo: (file: string, line: number) => string;
  /** What a sign, an option or a band is called; left out: by its name in the file. */
  readonly nameOf?: (found: Found) => string;
}

export function FlowMapView({ map, ...given }: Given & { readonly map: FlowMap }) {
  const { say } = given;
  const last = map.steps.length - 1;
  return (
    <section class="map" aria-label={say('map.title', { flow: map.flow })}>
      <p class="map-key">{say('map.key')}</p>
      <ol class="map-steps">
        {map.steps.map((step, at) => (
          <li key={step.id} class={classOf(step)}>
            <Card step={step} file={map.file} {...given} />
            <Exits step={step} {...given} />
            <Rail step={step} isFirst={at === 0} isLast={at === last} />
          </li>
        ))}
      </ol>
    </section>
  );
}

const classOf = (step: MapStep): string =>
  ['map-step', ...(step.guard === null ? [] : ['map-guarded']), ...(step.openedBy.length === 0 ? [] : ['map-opened'])].join(' ');

function Card({ step, file, say, linkTo }: Given & { readonly step: MapStep; readonly file: string }) {
  const kind = step.tells === undefined ? step.kind : `${step.kind}-${step.tells}`;
  return (
    <div class="map-card">
      <p class="map-head">
        <a href={linkTo(file, step.line)}>{step.id}</a> <span>{say(`map.kind.${kind}`, { signs: step.signs })}</span>{' '}
        <span class="map-place">{say('map.line', { line: step.line })}</span>
      </p>
      {step.guard !== null && <Guard said={step.guard} say={say} />}
      {step.openedBy.map(({ step: opener, by }) => (
        <p key={`${opener} ${by}`} class="map-opener">
          {say(`map.opened-by.${by}`, { step: opener, digit: moreDigit })}
        </p>
      ))}
      {step.asks.length > 0 && <p class="map-asks">{step.asks.map(words).join(', ')}</p>}
      {step.opens.length > 0 && <p class="map-opens">{say('map.opens', { steps: step.opens.join(', ') })}</p>}
    </div>
  );
}

function Exits({ step, say, nameOf = nameInFile }: Given & { readonly step: MapStep }) {
  const ways = (['urgent', 'refer'] as const).map((to) => ({ to, found: step.exits.filter((exit) => exit.to === to) }));
  const open = ways.filter(({ found }) => found.length > 0);
  if (open.length === 0) return null;
  return (
    <ul class="map-exits" aria-label={say('map.exits', { step: step.id })}>
      {open.map(({ to, found }) => (
        <li key={to} class={`map-exit map-${to}`}>
          <ExitArrow />
          <strong>{say(`map.exit.${to}`)}</strong>
          <ul>
            {found.map((exit: Exit) => (
              <li key={`${exit.of} ${exit.value}`}>{nameOf(exit)}</li>
            ))}
          </ul>
        </li>
      ))}
    </ul>
  );
}

const words = (id: string): string => id.replaceAll('-', ' ');

export function nameInFile({ of, value }: Found): string {
  return value === true ? words(of) : `${words(of)}: ${words(String(value))}`;
}
