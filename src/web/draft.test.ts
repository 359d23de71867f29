import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { begun, drafted } from './draft.ts';

const TEXT = readFileSync(new URL('../../examples/radio-corner.plan.yaml', import.meta.url), 'utf8');
const retitled = (text: string): string => text.replace(/^title: .*$/m, 'title: Written anew');
const other = (text: string): string => `${text}# from elsewhere\n`;

it('what is written of a plan stays when the plan becomes another: woven into it, or as it was typed', () => {
  // nothing is written yet: it is the plan
  expect(drafted(begun(TEXT), other(TEXT))).toEqual(begun(other(TEXT)));
  const mine = { base: TEXT, typed: retitled(TEXT) };
  expect(drafted(mine, other(TEXT))).toEqual({ base: other(TEXT), typed: other(retitled(TEXT)) });
  // of the same line both cannot be had
  expect(drafted(mine, TEXT.replace(/^title: .*$/m, 'title: Another'))).toEqual(mine);
  // half a line is not read yet, and not lost either
  const half = { base: TEXT, typed: TEXT.replace('units: {', 'units: ') };
  expect(half.typed).not.toBe(TEXT);
  expect(drafted(half, other(TEXT))).toEqual(half);
  // kept, it is the plan
  expect(drafted(mine, mine.typed)).toEqual(begun(mine.typed));
});
