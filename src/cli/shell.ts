import { readFileSync } from 'node:fs';
import pc from 'picocolors';
import { explain, type Issue } from '../core/issue/index.ts';

/** Ends a command with one of the exit codes of the design: 1 the plan (or a list) has errors, 2 the call was wrong. */
export class Ending extends Error {
  readonly code: 1 | 2;
  readonly issues: readonly Issue[];
  constructor(code: 1 | 2, message: string, issues: readonly Issue[] = []) {
    super(message);
    this.code = code;
    this.issues = issues;
  }
}

/** Data goes to standard output; everything said about it goes to standard error. */
export const data = (text: string): void => void process.stdout.write(text.endsWith('\n') ? text : `${text}\n`);
export const say = (text: string): void => void process.stderr.write(text.endsWith('\n') ? text : `${text}\n`);
export const json = (value: unknown): void => data(JSON.stringify(value, null, 2));

export function sayIssues(issues: readonly Issue[]): void {
  for (const issue of issues) say(`${pc.red('✗')} ${explain(issue)}`);
}

/** The text of a file a person named, or a plain word on why not. */
export function readText(path: string): string {
  try {
    return readFileSync(path === '-' ? 0 : path, 'utf8');
  } catch (error) {
    throw new Ending(2, `${path}: ${whyNot(error)}`);
  }
}

const REASONS: Record<string, string> = {
  ENOENT: 'there is no such file',
  EACCES: 'it may not be read or written',
  EPERM: 'it may not be read or written',
  EISDIR: 'that is a folder, not a file',
  ENOTDIR: 'a part of that path is not a folder',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk is read-only',
  EEXIST: 'it is there already',
};

/** A system error as a sentence; anything else is a bug and keeps its own words. */
export function whyNot(error: unknown): string {
  const code = (error as NodeJS.ErrnoException | undefined)?.code;
  return (code && REASONS[code]) ?? (error instanceof Error ? error.message : String(error));
}

/** One line on standard error that is rewritten while something takes its time; silent where nobody looks. */
export function progress(): { show: (text: string) => void; done: () => void } {
  const live = process.stderr.isTTY === true;
  let last = 0;
  return {
    show(text) {
      const now = Date.now();
      if (!live || now - last < 80) return;
      last = now;
      process.stderr.write(`\r\u001b[2K${text.slice(0, (process.stderr.columns ?? 80) - 1)}`);
    },
    done() {
      if (live) process.stderr.write('\r\u001b[2K');
    },
  };
}
