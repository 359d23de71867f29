import { describe, expect, it } from 'vitest';
import { powerFittings, powerNotes } from '../power/index.ts';
import { stripRuns } from './index.ts';
import { plainRoom } from './plain-room.testing.ts';

const sceneWith = (...pieces: readonly string[]) => {
  const scene = plainRoom(pieces);
  expect(scene.issues).toEqual([]);
  return scene;
};
const runs = (inside: string) =>
  stripRuns(
    sceneWith(
      `{case: books, wall: north, from: 300, size: {width: 1200, height: 1500, depth: 300}, inside: ${inside}}`,
      '{strip: light, title: Light, along: books}',
    ),
  );

describe('a strip along a case', () => {
  it('lies once in every open bay: in the rows of one that is open in rows, not over them as well', () => {
    const found = runs('{columns: [{name: scores, open: [1*, 1*, 1*]}, {name: left of it, door: left}, {open: true}]}');
    expect(found.map((s) => s.title)).toEqual([
      'Light, scores 1',
      'Light, scores 2',
      'Light, scores 3',
      'Light, bay 3',
    ]);
    expect(new Set(found.map((s) => `${s.from.x} ${s.from.y}`)).size).toBe(4);
    const heights = found.slice(0, 3).map((s) => s.from.y);
    expect([...heights].sort((a, b) => b - a)).toEqual(heights);
  });
  it('of one bay lies at its top', () => expect(runs('{open: true}')).toHaveLength(1));
});

describe('a stretch too short for one light', () => {
  // 60 to the metre stand 16.7 apart, and 20 are left for the ends: 36.7 is the least
  it.each([
    [15, true],
    [36, true],
    [37, false],
  ])('of %i mm is told of, and nothing is wired to it: %s', (width, dark) => {
    const scene = sceneWith(`{strip: light, wall: north, from: 300, above: 1000, size: {width: ${width}}}`);
    const notes = powerNotes(scene);
    expect(notes.some((n) => n.id === 'strip-short:light')).toBe(dark);
    expect(notes.some((n) => n.id.startsWith('supply:'))).toBe(!dark);
    expect(powerFittings(scene)).toEqual([]);
  });
  it('does not stop the wiring of another', () => {
    const scene = sceneWith(
      '{strip: light, wall: north, from: 300, above: 1000, size: {width: 20}}',
      '{strip: long, wall: north, from: 600, above: 1000, size: {width: 500}}',
    );
    expect(powerNotes(scene).map((n) => n.id)).toEqual(expect.arrayContaining(['strip-short:light', 'strip:long']));
  });
});
