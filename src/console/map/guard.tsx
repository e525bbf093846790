// The guard of a step in the author's own words, its lists as lists.

import type { Said } from '../../authoring/flow-places.ts';
import type { SayWords } from './say-words.ts';

export function Guard({ said, say }: { said: Said; say: SayWords }) {
  return (
    <div class="map-guard">
      <span class="map-label">{say('map.only-if')}</span> <Condition said={said} say={say} />
    </div>
  );
}

function Condition({ said, say }: { said: Said; say: SayWords }) {
  if (typeof said === 'string') return <code>{said}</code>;
  return (
    <>
      <span>{say(`map.${said.kind}`)}</span>{' '}
      <ul>
        {said.of.map((one) => (
          <li key={JSON.stringify(one)}>
            <Condition said={one} say={say} />
          </li>
        ))}
      </ul>
    </>
  );
}
