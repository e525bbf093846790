// What is drawn beside a step: the line that runs through the flow, the gate of a guard, the step's own shape, the branch of an opened
// step, and the arrow on which a danger leaves. All of it says again what the list says in text, so screen readers skip it.

import type { MapStep } from '../../authoring/flow-map.ts';

/** The line, in pixels from the left and the top: where it runs, where an opened step stands, and where the shapes are. */
const main = 15;
const side = 35;
const middle = 24;

export function Rail({ step, isFirst, isLast }: { step: MapStep; isFirst: boolean; isLast: boolean }) {
  const isOpened = step.openedBy.length > 0;
  const x = isOpened ? side : main;
  return (
    <svg class="map-rail" aria-hidden="true" focusable="false">
      <line class="map-line" x1={main} x2={main} y1={isFirst ? middle : 0} y2={isLast ? middle : '100%'} />
      {isOpened && <path class="map-branch" d={`M${main} ${middle}H${side}`} />}
      {step.guard !== null && <path class="map-gate" d={`M${x - 8} 5h16M${x - 8} 10h16`} />}
      <Shape kind={step.kind} x={x} />
    </svg>
  );
}

/** A circle for values, two for one more count, a square for signs, a diamond for a result. */
function Shape({ kind, x }: { kind: MapStep['kind']; x: number }) {
  switch (kind) {
    case 'read':
      return <circle class="map-shape" cx={x} cy={middle} r="7" />;
    case 'again':
      return (
        <g class="map-shape">
          <circle cx={x} cy={middle} r="8" />
          <circle cx={x} cy={middle} r="3.5" />
        </g>
      );
    case 'mark':
      return <rect class="map-shape" x={x - 7} y={middle - 7} width="14" height="14" rx="2" />;
    case 'result':
      return <path class="map-shape map-result" d={`M${x} ${middle - 10}l10 10-10 10-10-10z`} />;
  }
}

/** To the right: whole and filled for `urgent`, broken and open for `refer`. */
export function ExitArrow() {
  return (
    <svg class="map-arrow" aria-hidden="true" focusable="false">
      <line x1="0" x2="100%" y1="10" y2="10" />
      <svg x="100%" overflow="visible" aria-hidden="true">
        <path d="M-10 4L-1 10-10 16" />
      </svg>
    </svg>
  );
}
