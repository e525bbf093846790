// Whether a store answers, for whoever watches the server: how it fails is for those who use it to say.

export async function answers(ask: () => Promise<unknown>): Promise<boolean> {
  try {
    await ask();
    return true;
  } catch {
    return false;
  }
}
