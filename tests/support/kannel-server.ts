// A Kannel of our own: bearerbox with its fake centre, and smsbox, on free loopback ports, with the settings that README.md gives an
// operator. Where Kannel is missing the test fails. Next: kannel-handset.ts, the phones at its fake centre.

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { freePort } from './free-port.ts';
import { type StartedProcess, startProcess } from './started-process.ts';
import { temporaryFolder } from './temporary-folder.ts';

export const SENDSMS = { user: 'pipit', password: 'an-invented-password-of-sendsms' };

export interface KannelPorts {
  readonly box: number;
  readonly centre: number;
  readonly sendsms: number;
  readonly admin: number;
}

export async function freeKannelPorts(): Promise<KannelPorts> {
  const [box, centre, sendsms, admin] = await Promise.all([freePort(), freePort(), freePort(), freePort()]);
  return { box, centre, sendsms, admin };
}

export interface KannelServer {
  stop(): Promise<void>;
}

const remedy = 'Install Kannel 1.4 (Debian: apt-get install -y kannel) and run the tests again.';

/** Takes postUrl: where smsbox brings each text, with the secret and `?id=%I`. */
export async function startKannel(ports: KannelPorts, postUrl: string): Promise<KannelServer> {
  const folder = temporaryFolder();
  const settings = join(folder.path, 'kannel.conf');
  writeFileSync(settings, settingsOf(ports, postUrl));
  const start = (box: string, sign: string): Promise<StartedProcess> =>
    startProcess(box, ['-v', '1', settings], { cwd: folder.path, sign, remedy });
  const bearerbox = await start('/usr/sbin/bearerbox', 'Start-up done, entering mainloop');
  const smsbox = await start('/usr/sbin/smsbox', 'Connected to bearerbox').catch(async (error: unknown) => {
    await bearerbox.end('SIGTERM');
    throw error;
  });
  return {
    stop: async () => {
      await smsbox.end('SIGTERM');
      await bearerbox.end('SIGTERM');
      folder.remove();
    },
  };
}

function settingsOf({ box, centre, sendsms, admin }: KannelPorts, postUrl: string): string {
  const groups: readonly Readonly<Record<string, string>>[] = [
    {
      group: 'core',
      'admin-port': String(admin),
      'admin-interface': '127.0.0.1',
      'admin-password': 'an-invented-password-of-admin',
      'smsbox-port': String(box),
      'smsbox-interface': '127.0.0.1',
      'box-allow-ip': '127.0.0.1',
      'box-deny-ip': '*.*.*.*',
    },
    { group: 'smsc', smsc: 'fake', 'smsc-id': 'handsets', port: String(centre), 'connect-allow-ip': '127.0.0.1' },
    {
      group: 'smsbox',
      'bearerbox-host': '127.0.0.1',
      'bearerbox-port': String(box),
      'sendsms-port': String(sendsms),
      'sendsms-interface': '127.0.0.1',
      'http-request-retry': '20',
      'http-queue-delay': '1',
      'reply-couldnotfetch': '""',
      'reply-couldnotrepresent': '""',
      'reply-requestfailed': '""',
      'reply-emptymessage': '""',
    },
    { group: 'sendsms-user', username: SENDSMS.user, password: SENDSMS.password, 'max-messages': '10', concatenation: 'true' },
    {
      group: 'sms-service',
      keyword: 'default',
      'post-url': `"${postUrl}"`,
      'send-sender': 'true',
      'accept-x-kannel-headers': 'true',
      'omit-empty': 'true',
      'max-messages': '10',
      concatenation: 'true',
    },
  ];
  const written = groups.map((group) => Object.entries(group).map(([name, value]) => `${name} = ${value}\n`));
  return written.map((lines) => lines.join('')).join('\n');
}
