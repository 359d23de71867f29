import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

/** A Chromium on the PATH, or the one that is named by CHROMIUM; undefined where there is none. */
export const executablePath: string | undefined = [
  process.env.CHROMIUM,
  ...(process.env.PATH ?? '').split(delimiter).map((folder) => join(folder, 'chromium')),
].find((file) => file !== undefined && existsSync(file));

/** Without a sandbox, which a container cannot give it, and without anything that looks for a network by itself. */
export const launch = (path: string): Promise<Browser> =>
  chromium.launch({
    executablePath: path,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      // a name by which this machine is not taken for itself
      '--host-resolver-rules=MAP phone.test 127.0.0.1',
    ],
  });
