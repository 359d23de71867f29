import type { Issue } from '../core/issue/index.ts';
import type { Conflict, Refusal, RefusalCode } from '../core/workspace/index.ts';
import { FolderGone, NotText, Outside } from './files.ts';

const STATUS: Record<RefusalCode, number> = {
  'not-paired': 401,
  'wrong-code': 401,
  forbidden: 403,
  'bad-request': 400,
  'bad-name': 400,
  'not-found': 404,
  exists: 409,
  conflict: 409,
  'not-a-plan': 422,
  'bad-csv': 422,
  'too-large': 413,
  'too-many': 429,
  'read-only': 403,
  'disk-full': 507,
  'no-folder': 503,
  'cannot-be-built': 422,
  failed: 500,
};

/** Ends a request with an answer that a person can read. */
export class Refused extends Error {
  readonly status: number;
  readonly body: Refusal | Conflict;
  constructor(code: RefusalCode, message: string, more: Partial<Refusal['error']> = {}, beside: object = {}) {
    super(message);
    this.status = STATUS[code];
    this.body = { error: { code, message, ...more }, ...beside };
  }
}

export const notAPlan = (what: string, issues: readonly Issue[]): Refused =>
  new Refused('not-a-plan', `${what} cannot be read as a plan.`, { issues: issues.slice(0, 100) });

export const noSuchAddress = (): Refused => new Refused('not-found', 'The workbench has no such address.');

/** What the system said, as an answer; undefined for a bug. */
export function refusalOf(error: unknown): Refused | undefined {
  if (error instanceof Refused) return error;
  if (error instanceof NotText) return new Refused('not-a-plan', `${error.message}.`);
  if (error instanceof Outside) return new Refused('bad-name', `${error.message}.`);
  if (error instanceof FolderGone)
    return new Refused(
      'no-folder',
      'The workspace folder is not where it was: it was moved or renamed, or its disk was taken away. What you have typed is still on your page; once the folder is back, it is saved by itself.',
    );
  const { code, errcode, message = '' } = error as { code?: string; errcode?: number; message?: string };
  if (code === 'ENOSPC' || code === 'EDQUOT' || errcode === 13 || /database or disk is full/i.test(message))
    return new Refused(
      'disk-full',
      'The disk is full: the file on it is as it was, and what you have typed is still on your page. Make room; then it is saved by itself.',
    );
  if (code === 'EROFS' || code === 'EACCES' || code === 'EPERM' || /readonly database/i.test(message))
    return new Refused(
      'read-only',
      'The workspace folder may not be written: the file in it is as it was, and what you have typed is still on your page.',
    );
  if (code === 'EISDIR') return new Refused('bad-name', 'A folder of this name stands in the way.');
  if (code === 'ELOOP' || code === 'ENAMETOOLONG' || code === 'ENOTDIR')
    return new Refused('bad-name', 'There can be no file of this name.');
  return undefined;
}
