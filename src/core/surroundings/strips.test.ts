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

it('of a strip that no wire of the list carries, no wire is bought, and no fuse for one', () => {
  const said = '{strip: long, wall: north, from: 200, above: 1000, size: {width: 3600}, perMetre: 144}';
  const bare = sceneWith(said);
  const across = { id: 'far', wall: 'south', kind: 'outlet', x: [100, 170], y: [300, 370], out: 0, clear: 0 } as never;
  const scene = { ...bare, room: { ...bare.room, services: [across] } };
  expect(powerNotes(scene).find((n) => n.id === 'strip:long')!.title).toMatch(/^No wire of the list carries/);
  const packs = [{ id: 'reel', use: 'strip light', holds: '5 m', price: 1 }] as never;
  const stocked = { ...scene, plan: { ...scene.plan, stock: { ...scene.plan.stock, packs } } };
  const uses = powerFittings(stocked).map((f) => f.use);
  expect(uses).toContain('strip light');
  // the wire of the data line is one of the list
  expect(uses.filter((use) => /wire|fuse/.test(use))).toEqual(['wire 0.5 mm²']);
});
