// How many messages of one gateway are answered at a time. A gateway that brings more is told to bring it later, so that a flood at
// one door leaves the others open. Next: kannel/webhook.ts, smpp/door.ts.

export interface Room {
  /** What comes back must be called when the message is answered; undefined: there is no room now. */
  enter(): (() => void) | undefined;
}

export function roomFor(messages: number): Room {
  let inside = 0;
  return {
    enter() {
      if (inside >= messages) return undefined;
      inside += 1;
      let isInside = true;
      return () => {
        if (isInside) inside -= 1;
        isInside = false;
      };
    },
  };
}
