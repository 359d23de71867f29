import { fail, ok, type Result } from '../issue/index.ts';
import type { Edit, PlainValue } from './edit/edit.ts';
import { applyToPlain } from './edit/plain.ts';

/** The step from one version of the file format to the next, as edits, so that a file keeps its comments when it is rewritten. */
export interface Migration {
  readonly from: number;
  readonly what: string;
  readonly edits: (plain: PlainValue) => readonly Edit[];
}

/** One for each version there has been, the first from 1. There is only version 1 so far. */
export const MIGRATIONS: readonly Migration[] = [];

/**
 * The edits that bring a document of version `from` to version `to`, and the document after them.
 * @throws RangeError when the migrations do not lead there without a gap: that is a bug of this program.
 */
export function migrate(
  plain: PlainValue,
  from: number,
  to: number,
  migrations: readonly Migration[],
): Result<{ readonly plain: PlainValue; readonly edits: readonly Edit[] }> {
  const missing = Array.from({ length: to - 1 }, (_, i) => i + 1).find((n, i) => migrations[i]?.from !== n);
  if (missing !== undefined || migrations.length !== to - 1)
    throw new RangeError(`migrations to version ${to} must be numbered 1 to ${to - 1} in order`);
  let document = plain;
  const edits: Edit[] = [];
  for (const step of migrations.slice(from - 1)) {
    const stepEdits: readonly Edit[] = [
      ...step.edits(document),
      { op: 'set', path: ['setwright'], value: step.from + 1 },
    ];
    const next = applyToPlain(document, stepEdits);
    if (!next.ok)
      return fail(
        ...next.issues.map((issue) => ({
          ...issue,
          message: `bringing the plan from version ${step.from} up to date: ${issue.message}`,
        })),
      );
    document = next.value;
    edits.push(...stepEdits);
  }
  return ok({ plain: document, edits });
}
