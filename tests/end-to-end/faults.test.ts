// What goes wrong around a running server: messages delivered twice or at once, a store that is away or hangs, a process
// that is killed or told to stop in the middle of a turn. Advice still comes, and every record is written once.
// Nothing here waits for a time: what hangs is held by a relay and let go. Next: kills.test.ts.

import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { readTwiml } from '../support/channel-sms.ts';
import { answerNoneUntilResult, beginVitals, deliver, phoneThatTexts, textOf, WHO } from '../support/end-to-end-phones.ts';
import { NURSE } from '../support/end-to-end-programme.ts';
import { type ServerProcess, startServerProcess } from '../support/end-to-end-server.ts';
import { type Stack, startStack } from '../support/end-to-end-stack.ts';

const patiently = { timeout: 30_000 };
/** A gateway asks its fallback after fifteen seconds; an answer must come well before. */
const gatewayPatienceMilliseconds = 15_000;

let stack: Stack;
let server: ServerProcess;
const url = () => server.url;

beforeAll(async () => {
  stack = await startStack(60);
});
afterAll(() => stack?.close());

/** Begins an examination and stops at the question for danger signs. */
async function askedForDanger(worker: string): Promise<void> {
  await phoneThatTexts(url, worker)(`BABY ${WHO}`);
}

/** Goes on to the last question, so that one more answer brings the result. */
async function askedLastQuestion(worker: string): Promise<void> {
  const send = phoneThatTexts(url, worker);
  await beginVitals(send);
  await send('36.8 44 132');
  for (let asked = 0, reply = ''; !reply.includes('NOT GIVEN'); asked += 1) {
    if (asked > 30) throw new Error('The question for the care not given never came.');
    reply = await send('0');
  }
}

async function timed<T>(work: Promise<T>): Promise<{ readonly value: T; readonly milliseconds: number }> {
  const began = performance.now();
  return { value: await work, milliseconds: performance.now() - began };
}

describe('a server that is left running', () => {
  beforeAll(async () => {
    server = await startServerProcess(stack.environment);
  });
  afterAll(() => server?.end('SIGTERM'));
  afterEach(() => {
    for (const relay of Object.values(stack.relays)) relay.goOn();
  });

  it('answers a text that arrives twenty times at once twenty times the same, and does it once', async () => {
    const worker = stack.freshWorker();
    await askedForDanger(worker);
    const text = textOf(worker, '1');
    const answers = await Promise.all(Array.from({ length: 20 }, () => deliver(server.url, text)));
    expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([200]));
    expect(new Set(answers.map(({ body }) => body)).size).toBe(1);
    expect(readTwiml(answers[0]!.body)).toContain('REFER NOW');
    await expect.poll(() => stack.nurseTexts(worker), patiently).toHaveLength(1);
    expect(await stack.register.alerts(worker)).toHaveLength(1);
    expect((await deliver(server.url, text)).body).toBe(answers[0]!.body);
    expect(await stack.register.texts(worker)).toHaveLength(1);
  });

  it('answers two texts of one phone at one instant both, and keeps what each said once', async () => {
    const worker = stack.freshWorker();
    const send = phoneThatTexts(url, worker);
    await beginVitals(send);
    const replies = await Promise.all([send('T36.7'), send('R43')]);
    for (const reply of replies) expect(reply).not.toBe('');
    expect(new Set(replies).size).toBe(2);
    await send('131');
    expect(await answerNoneUntilResult(send)).toContain('WELL');
    const [row] = await stack.register.examinations(worker);
    expect(row!.body.case.findings).toMatchObject({ temperature: [36.7], 'respiratory-rate': [43], 'heart-rate': [131] });
    const messages = row!.body.examination.answers.map(({ message }) => message);
    expect(new Set(messages).size).toBe(messages.length);
  });

  it('says 500 in good time while Redis refuses or hangs, and serves again when it is back', async () => {
    const worker = stack.freshWorker();
    await askedForDanger(worker);
    const text = textOf(worker, '1');

    await stack.relays.redis.leave();
    const refused = await timed(deliver(server.url, text));
    expect(refused.value.status).toBe(500);
    expect(refused.milliseconds).toBeLessThan(gatewayPatienceMilliseconds);
    await stack.relays.redis.comeBack();
    await expect.poll(async () => (await deliver(server.url, textOf(stack.freshWorker(), 'MENU'))).status, patiently).toBe(200);

    stack.relays.redis.hang();
    const hung = await timed(deliver(server.url, text));
    expect(hung.value.status).toBe(500);
    expect(hung.milliseconds).toBeLessThan(gatewayPatienceMilliseconds);
    stack.relays.redis.goOn();
    await stack.endLock(worker);
    await expect.poll(async () => readTwiml((await deliver(server.url, text)).body) ?? '', patiently).toContain('REFER NOW');
    await expect.poll(() => stack.nurseTexts(worker), patiently).toHaveLength(1);
    expect(await stack.register.alerts(worker)).toHaveLength(1);
  });

  it.each([
    { fault: 'is away', begin: () => stack.relays.postgres.leave(), end: () => stack.relays.postgres.comeBack() },
    {
      fault: 'hangs',
      begin: async () => stack.relays.postgres.hang(),
      end: async () => stack.relays.postgres.leave().then(() => stack.relays.postgres.comeBack()),
    },
  ])('advises while the register $fault, tells the nurse all the same, and writes everything once it is back', async ({ begin, end }) => {
    const worker = stack.freshWorker();
    const send = phoneThatTexts(url, worker);
    await askedForDanger(worker);

    await begin();
    const urgent = await timed(send('1'));
    expect(urgent.value).toContain('REFER NOW');
    expect(urgent.value).toContain('Not recorded yet');
    expect(urgent.value).toContain('Ring');
    expect(urgent.milliseconds).toBeLessThan(gatewayPatienceMilliseconds);
    expect(stack.nurseTexts(worker)).toHaveLength(1);
    expect(await send('2')).not.toBe('');
    expect(stack.nurseTexts(worker)).toHaveLength(1);
    await end();

    await expect.poll(() => stack.register.texts(worker), patiently).toHaveLength(1);
    const [alert, ...others] = await stack.register.alerts(worker);
    expect(others).toEqual([]);
    expect(await stack.register.texts(worker)).toMatchObject([{ state: 'sent', recipient: NURSE }]);
    expect(await phoneThatTexts(url, NURSE)(alert!.code)).toContain(worker);
    await expect.poll(() => stack.gateway.takenFor(worker), patiently).toHaveLength(1);
    expect(stack.nurseTexts(worker)).toHaveLength(1);
  });

  it('tries a text again that neither the register nor the gateway took', async () => {
    const worker = stack.freshWorker();
    const send = phoneThatTexts(url, worker);
    await askedForDanger(worker);
    await Promise.all([stack.relays.postgres.leave(), stack.relays.gateway.leave()]);
    expect(await send('1')).toMatch(/REFER NOW.*Ring the nurse NOW/s);
    expect(stack.nurseTexts(worker)).toEqual([]);
    await stack.relays.gateway.comeBack();
    await expect.poll(() => stack.nurseTexts(worker).length, patiently).toBe(1);
    await stack.relays.postgres.comeBack();
    await expect.poll(() => stack.register.texts(worker), patiently).toMatchObject([{ state: 'sent' }]);
    expect(stack.nurseTexts(worker)).toHaveLength(1);
  });

  it('sends a text while another to a different phone hangs at the gateway', async () => {
    const [slow, quick] = [stack.freshWorker(), stack.freshWorker()];
    const held = stack.gateway.holdFor(slow);
    await stack.register.queueTexts([
      { key: 'a-hangs', to: slow, text: 'A text that hangs.' },
      { key: 'b-passes', to: quick, text: 'A text that passes.' },
    ]);
    await expect.poll(() => stack.gateway.takenFor(quick), patiently).toEqual(['A text that passes.']);
    expect(held.waiting()).toBe(1);
    held.letGo();
    await expect.poll(() => stack.gateway.takenFor(slow), patiently).toEqual(['A text that hangs.']);
  });
});

describe('a server that ends in the middle of a turn', () => {
  beforeEach(async () => {
    server = await startServerProcess(stack.environment);
  });
  afterEach(async () => {
    stack.relays.postgres.onPiece = () => {};
    stack.relays.postgres.goOn();
    await server?.end('SIGKILL');
  });

  /** The server waits for the register; what it has of the turn is lost with it. */
  const moments = [
    {
      moment: 'before its records are written',
      prepare: () => stack.relays.postgres.hang(['there']),
      isReached: () => stack.relays.postgres.waiting().length > 0,
    },
    {
      moment: 'after its records are written and before its session is closed',
      prepare: () => {
        stack.relays.postgres.onPiece = ({ direction, bytes }) => {
          if (direction === 'there' && bytes.includes('commit')) stack.relays.postgres.hang(['back']);
        };
      },
      isReached: () => stack.relays.postgres.waiting().some(({ bytes }) => bytes.includes('COMMIT')),
    },
  ];

  async function killAt({ prepare, isReached }: (typeof moments)[number], worker: string, body: string): Promise<string> {
    const text = textOf(worker, body);
    prepare();
    const unanswered = deliver(server.url, text).then(
      () => 'answered',
      () => 'unanswered',
    );
    await expect.poll(isReached, { ...patiently, interval: 5 }).toBe(true);
    await server.end('SIGKILL');
    expect(await unanswered).toBe('unanswered');
    stack.relays.postgres.onPiece = () => {};
    await stack.relays.postgres.leave();
    await stack.relays.postgres.comeBack();
    server = await startServerProcess(stack.environment);
    await stack.endLock(worker);
    const answer = await deliver(server.url, text);
    expect(answer.status).toBe(200);
    return readTwiml(answer.body) ?? '';
  }

  it.each(moments)('records an examination once when it is killed $moment and the text comes again', async (moment) => {
    const worker = stack.freshWorker();
    await askedLastQuestion(worker);
    expect(await killAt(moment, worker, '0')).toContain('WELL');
    expect(await stack.register.examinations(worker)).toHaveLength(1);
  });

  it.each(moments)('alerts the nurse once when it is killed $moment and the text comes again', async (moment) => {
    const worker = stack.freshWorker();
    await askedForDanger(worker);
    expect(await killAt(moment, worker, '1')).toContain('REFER NOW');
    await expect.poll(() => stack.nurseTexts(worker), patiently).toHaveLength(1);
    expect(await stack.register.alerts(worker)).toHaveLength(1);
    expect(await stack.register.texts(worker)).toMatchObject([{ state: expect.stringMatching(/due|sent/) }]);
  });

  it.each(moments)(
    'alerts the nurse once when the text that begins the examination is the urgent one and it is killed $moment',
    async (moment) => {
      const worker = stack.freshWorker();
      expect(await killAt(moment, worker, `BABY ${WHO} T35.0`)).toContain('REFER NOW');
      await expect.poll(() => stack.nurseTexts(worker), patiently).toHaveLength(1);
      expect(await stack.register.alerts(worker)).toHaveLength(1);
    },
  );

  it('finishes the turn in flight when it is told to stop, and then ends', async () => {
    const worker = stack.freshWorker();
    await askedForDanger(worker);
    stack.relays.postgres.hang();
    const answering = deliver(server.url, textOf(worker, '1'));
    await expect.poll(() => stack.relays.postgres.waiting().length, { ...patiently, interval: 5 }).toBeGreaterThan(0);
    const ended = server.end('SIGTERM');
    await expect
      .poll(
        () =>
          deliver(server.url, textOf(worker, 'MENU')).then(
            () => 'open',
            () => 'shut',
          ),
        { ...patiently, interval: 5 },
      )
      .toBe('shut');
    stack.relays.postgres.goOn();
    const answer = await answering;
    expect(answer.status).toBe(200);
    expect(readTwiml(answer.body)).toContain('REFER NOW');
    await ended;
    expect(await stack.register.alerts(worker)).toHaveLength(1);
  });
});
