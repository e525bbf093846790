// How the scripts of the editor speak with the server, and how work that is asked for over and over is done: one at a time, and then
// once more for all that was asked meanwhile.

/** Errors: no answer, or one that is not what was asked for. */
export async function post<Result>(address: string, fields: Readonly<Record<string, string>>): Promise<Result> {
  const token = document.querySelector<HTMLMetaElement>('meta[name=form-token]')?.content ?? '';
  const response = await fetch(address, {
    method: 'POST',
    headers: { 'content-type': 'application/json', accept: 'application/json', 'x-form-token': token },
    body: JSON.stringify(fields),
  });
  if (!response.ok) throw new Error(String(response.status));
  return (await response.json()) as Result;
}

/** Takes  work: never throws. */
export function oneAtATime(work: () => Promise<void>): () => void {
  let [isRunning, isAskedAgain] = [false, false];
  const run = async (): Promise<void> => {
    isRunning = true;
    do {
      isAskedAgain = false;
      await work();
    } while (isAskedAgain);
    isRunning = false;
  };
  return () => {
    if (isRunning) isAskedAgain = true;
    else void run();
  };
}

export function afterPause(milliseconds: number, work: () => void): () => void {
  let timer = 0;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(work, milliseconds);
  };
}
