import { expect, it } from 'vitest';
import { noteOn, notesOf, read, roomOf } from './plan.testing.ts';

const size = (height: number) => `size: {width: 1200, height: ${height}, depth: 350}`;
const lift = (pieces: readonly string[]) =>
  noteOn(notesOf(read(roomOf(pieces.map((p) => `      - ${p}`).join('\n'))).plan), 'lift:upper')!;

it('what stands on another case is lifted onto that, and what hangs to the wall', () => {
  const base = `{case: base, title: Low case, wall: north, from: 0, ${size(800)}}`;
  const stands = lift([base, `{case: upper, on: base, inside: {shelves: 4}, ${size(1500)}}`]);
  expect(stands.title).toContain('from the floor onto what it stands on');
  expect(stands.advice).toContain('Hold it there until its fixings are driven');
  expect(`${stands.title} ${stands.advice}`).not.toMatch(/to the wall|[Hh]ang|[Pp]rop/);
  const hangs = lift([base, `{case: upper, wall: north, from: 1500, above: 800, inside: {shelves: 4}, ${size(1500)}}`]);
  expect(hangs.title).toContain('from the floor to the wall');
  expect(hangs.advice).toContain('Prop it on a cleat');
});
