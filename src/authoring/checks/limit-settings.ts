// Under which choice of switches a limit lies somewhere else: the default, and each single option that moves it.
// Choices of two options at once are not tried: they move no line that one of them does not move.

import type { ChosenOption } from '../../clinical/bands.ts';
import type { Limit } from '../../clinical/number-line.ts';
import type { Protocol } from '../../clinical/protocol.ts';
import type { ChosenOptions } from './decided-line.ts';

export interface Setting {
  readonly chosen: ChosenOption;
  readonly options: readonly ChosenOptions[];
}

export function settingsOf(limits: readonly Limit[], protocol: Protocol): Setting[] {
  const moves = limits.flatMap((limit) => limit.moved);
  const ids = [...new Set(moves.map((move) => move.switch))];
  const setting = (id?: string, option?: string): Setting => {
    const chosen: ChosenOption = (asked) => (asked === id ? option : defaultOf(protocol, asked));
    return { chosen, options: ids.map((one) => [one, [chosen(one) ?? '']]) };
  };
  return [setting(), ...moves.map((move) => setting(move.switch, move.option))];
}

export const defaultOf = (protocol: Protocol, id: string): string | undefined => protocol.switches.get(id)?.options[0];
