import { basename } from 'node:path';
import type { Issue } from '../core/issue/index.ts';
import { nearest } from '../core/issue/index.ts';
import { findOption } from '../core/outcome.ts';
import { type Option, type Plan, type PlanDocument, readPlan } from '../core/plan/index.ts';
import { Ending, readText } from './shell.ts';

export interface Opened {
  readonly plan: Plan;
  readonly file: string;
  readonly document: PlanDocument;
}

/** Reads a plan whole, or ends the command with everything that is wrong with it. */
export function openPlan(path: string): Opened {
  const file = path === '-' ? 'standard input' : basename(path);
  const { plan, issues, document } = readPlan(readText(path), { file });
  if (!plan) throw new Ending(1, `${file} cannot be used as it is: ${count(issues.length, 'error')}.`, issues);
  return { plan, file, document };
}

/** Issues that were found later, while building, get their line in the file. */
export const placed = (opened: Opened, issues: readonly Issue[]): readonly Issue[] =>
  issues.map((issue) => {
    const place = issue.place ?? opened.document.place(issue.path);
    return { ...issue, file: opened.file, ...(place && { place }) };
  });

export function chooseOption(plan: Plan, id: string | undefined): Option {
  const option = findOption(plan, id);
  if (option) return option;
  const ids = plan.options.map((o) => o.id);
  const near = id === undefined ? undefined : nearest(id, ids);
  throw new Ending(
    2,
    `There is no option '${id}'; the plan has ${ids.join(', ')}.${near ? ` Did you mean ${near}?` : ''}`,
  );
}

export const count = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`;
