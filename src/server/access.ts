import { createHash, createHmac, randomBytes, randomInt, timingSafeEqual } from 'node:crypto';
import { hostname, networkInterfaces } from 'node:os';
import type { Device, PairingCode } from '../core/workspace/index.ts';
import type { Db } from './database.ts';
import { Refused, refusalOf } from './refusal.ts';

/** Without letters and digits that are mistaken for one another. 8 of 31 are almost 40 bits. */
const LETTERS = '23456789ABCDEFGHJKMNPQRSTUVWXYZ';
const CODE_LENGTH = 8;
const CODE_LASTS = 10 * 60_000;
const SESSION_LASTS = 60 * 86_400_000;
const MOST_DEVICES = 50;
/** Wrong codes within ten minutes: from one address, and from all together. A chance of 2 · 10⁻¹¹ an hour to guess one. */
const WRONG_OF_ONE = 8;
const WRONG_OF_ALL = 40;

export interface Access {
  /** A new code, good once and for ten minutes. The one before it is void. */
  readonly newCode: (port: number) => PairingCode;
  readonly pair: (
    code: string,
    device: string,
    address: string,
  ) => Promise<{ readonly token: string; readonly device: Device }>;
  readonly deviceOf: (token: string | undefined) => Promise<Device | undefined>;
  readonly devices: () => Promise<readonly Device[]>;
  readonly forget: (id: number) => Promise<boolean>;
}

const digest = (text: string): Buffer => createHash('sha256').update(text).digest();

/**
 * Who may come in over the network: devices that were shown a code on this machine's own screen. A token is stored under a key that
 * only this machine has, since the database goes where the folder goes.
 */
export function accessOf(
  db: Db,
  secret: () => Buffer,
  now: () => number = Date.now,
  // a code and wrong guesses last for a while, whatever the clock is set to meanwhile
  passed: () => number = () => performance.now(),
): Access {
  const keyed = (token: string): string => createHmac('sha256', secret()).update(token).digest('hex');
  let code: { readonly text: Buffer; readonly expires: number } | undefined;
  let wrong: { readonly address: string; readonly at: number }[] = [];
  const row = ({ token: _, ...device }: Device & { readonly token: string }): Device => device;

  return {
    newCode(port) {
      const text = Array.from({ length: CODE_LENGTH }, () => LETTERS[randomInt(LETTERS.length)]).join('');
      code = { text: digest(text), expires: passed() + CODE_LASTS };
      return {
        code: `${text.slice(0, 4)}-${text.slice(4)}`,
        expires: new Date(now() + CODE_LASTS).toISOString(),
        addresses: lanAddresses().map((address) => `http://${address}:${port}/`),
      };
    },

    async pair(typed, name, address) {
      wrong = wrong.filter(({ at }) => passed() - at < 10 * 60_000);
      const own = wrong.filter((one) => one.address === address).length;
      if (own >= WRONG_OF_ONE || wrong.length >= WRONG_OF_ALL)
        throw new Refused('too-many', 'Too many wrong codes. Wait ten minutes, then try again.', { retryAfter: 600 });
      const plain = typed.toUpperCase().replace(/[\s-]/g, '');
      const right = code !== undefined && passed() < code.expires && timingSafeEqual(digest(plain), code.text);
      if (!right) {
        wrong.push({ address, at: passed() });
        throw new Refused('wrong-code', 'That code is wrong or has run out. Ask for a new one on the machine itself.');
      }
      code = undefined;
      const token = randomBytes(32).toString('base64url');
      const at = new Date(now()).toISOString();
      const made = await db
        .insertInto('devices')
        .values({
          name,
          token: keyed(token),
          paired: at,
          seen: at,
          expires: new Date(now() + SESSION_LASTS).toISOString(),
        })
        .returningAll()
        .executeTakeFirstOrThrow();
      // the devices that were away longest make room
      const old = await db
        .selectFrom('devices')
        .select('id')
        .orderBy('seen', 'desc')
        .offset(MOST_DEVICES)
        .limit(100)
        .execute();
      for (const { id } of old) await db.deleteFrom('devices').where('id', '=', id).execute();
      return { token, device: row(made) };
    },

    async deviceOf(token) {
      if (token === undefined || !/^[\w-]{43}$/.test(token)) return undefined;
      // looked up by its keyed hash, which tells nothing about how near a guess was
      const found = await db.selectFrom('devices').selectAll().where('token', '=', keyed(token)).executeTakeFirst();
      if (!found || Date.parse(found.expires) <= now()) return undefined;
      if (now() - Date.parse(found.seen) > 60_000)
        await db
          .updateTable('devices')
          .set({ seen: new Date(now()).toISOString() })
          .where('id', '=', found.id)
          .execute()
          .catch((error: unknown) => {
            // to look at a plan nothing has to be written
            if (!refusalOf(error)) throw error;
          });
      return row(found);
    },

    devices: async () => (await db.selectFrom('devices').selectAll().orderBy('seen', 'desc').execute()).map(row),

    forget: async (id) =>
      Number((await db.deleteFrom('devices').where('id', '=', id).executeTakeFirst()).numDeletedRows) > 0,
  };
}

/** Addresses at which other devices of the local network reach this machine: it listens by IPv4, which every such network has. */
export const lanAddresses = (): readonly string[] =>
  Object.values(networkInterfaces())
    .flatMap((all) => all ?? [])
    .filter((one) => !one.internal && one.family === 'IPv4')
    .map((one) => one.address);

export const isLoopback = (address: string | undefined): boolean =>
  address !== undefined && (/^(?:::ffff:)?127\./.test(address) || address === '::1');

const LOCAL_NAMES = new Set(['localhost', '127.0.0.1', '[::1]']);

/**
 * Whether a Host header names this server. A page of a foreign site whose name was pointed at this machine (DNS rebinding) carries
 * that site's name.
 */
export function isOwnHost(host: string | undefined, port: number, lan: boolean, names: readonly string[]): boolean {
  const match = /^(\[[0-9a-f:.]+\]|[a-z0-9.-]{1,253})(?::(\d{1,5}))?$/.exec((host ?? '').toLowerCase());
  if (!match || Number(match[2] ?? 80) !== port) return false;
  const name = match[1]!;
  if (LOCAL_NAMES.has(name)) return true;
  if (!lan) return false;
  const own = hostname().toLowerCase();
  return (
    name === own ||
    name === `${own}.local` ||
    names.some((one) => one.toLowerCase() === name) ||
    lanAddresses().includes(name)
  );
}
export const isLocalHost = (host: string | undefined): boolean =>
  LOCAL_NAMES.has((host ?? '').toLowerCase().replace(/:\d+$/, ''));

/** The value of a cookie; undefined when there is none. */
export function cookieOf(header: string | undefined, name: string): string | undefined {
  for (const part of (header ?? '').split(';')) {
    const [key, value] = part.trim().split('=', 2);
    if (key === name) return value;
  }
  return undefined;
}
