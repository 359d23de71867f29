import { expect, it } from 'vitest';
import { alsoOf } from '../notes/index.ts';
import { noteOn, notesOf, read, roomOf } from './plan.testing.ts';

const THIN = '    - {id: card, kind: MDF, thickness: 3, sizes: [{length: 2440, width: 1220}]}';
const noteOf = (more: string, height = 60) =>
  noteOn(
    notesOf(
      read(
        roomOf(
          `      - {shelf: s, wall: north, from: 400, above: 1400, size: {width: 2000, height: ${height}, depth: 220}, ${more}}`,
          { stock: THIN },
        ),
      ).plan,
    ),
    'shelf-sag:s',
  )!;

it('a floating shelf is told to stay straight between its rods, with what was reckoned', () => {
  const note = noteOf('skin: thin, rods: {at: [200, 1000, 1800], diameter: 12}, load: 20 kg');
  expect(note.verdict).toBe('fine');
  expect(note.title).toContain('between two rods');
  const of = (symbol: string) => note.working!.inputs.find((i) => i.symbol === symbol)!.value;
  expect([of('L'), of('b'), of('H'), of('t')]).toEqual([2000, 214, 60, 6]);
  expect(of('m')).toBeGreaterThan(20);
  expect(alsoOf(note.working!, 'l')).toBe(800);
});

it('an end that runs far past its rod is what sags, and further', () => {
  const even = noteOf('skin: thin, rods: {at: [400, 1600], diameter: 12}, load: 20 kg');
  const beside = noteOf('skin: thin, rods: {at: [100, 700], diameter: 12}, load: 20 kg');
  expect(beside.title).toContain('past its outer rod');
  expect(alsoOf(beside.working!, 'l')).toBe(1300);
  expect(beside.working!.result.value).toBeGreaterThan(even.working!.result.value);
});

it('skins that nothing joins bend each by itself, and are told when they sag too far', () => {
  // a hollow no higher than the rods has no bearers
  const note = noteOf('skin: card, rods: {at: [200, 1800], diameter: 12}, load: 20 kg', 20);
  expect(note.verdict).toBe('stop');
  expect(note.title).toContain('sags');
});

it('is not known of a stock the handbook does not have', () => {
  const other = '    - {id: odd, kind: zebra board, thickness: 6, sizes: [{length: 2440, width: 1220}]}';
  const { plan } = read(
    roomOf(
      '      - {shelf: s, wall: north, from: 400, above: 1400, size: {width: 1000, height: 60, depth: 220}, skin: odd}',
      {
        stock: other,
      },
    ),
  );
  expect(noteOn(notesOf(plan), 'shelf-sag:s')!.title).toContain('not known');
});
