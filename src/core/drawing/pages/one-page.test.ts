import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { findOption, packetInput, sceneOf, settle } from '../../outcome.ts';
import { applyToPlain, type PlainValue, planOf, readPlan } from '../../plan/index.ts';
import { holds } from '../draw.ts';
import { drawLive, isLivePage, noSpots, packetSheets } from '../index.ts';
import { EXAMPLES, exampleInput } from '../packet.testing.ts';
import { collisions } from './collisions.testing.ts';
import type { Held } from './desk.ts';

it.each(EXAMPLES)('draws each page of %s that is worked on by itself just as it stands in the packet', (name) => {
  const input = exampleInput(name);
  const options = { paper: 'A4' } as const;
  const { pages, register } = packetSheets(input, options);
  expect(register.map(({ id, number, title }) => [id, number, title])).toEqual(
    pages.map(({ id, number, title }) => [id, number, title]),
  );
  const live = pages.filter((page) => isLivePage(page.id));
  expect(live.map((page) => page.id)).toContain('plan');
  expect(live.length).toBeGreaterThan(1);
  for (const page of live) expect(drawLive(input, options, register, page.id)).toEqual(page);
  expect(drawLive(input, options, register, 'elevation-nowhere')).toBeUndefined();
});

it.each(EXAMPLES)(
  'says of each page of %s that is worked on where its drawing lies: all of it that is not notes',
  (name) => {
    const input = exampleInput(name);
    const pages = packetSheets(input, { paper: 'A4' }).pages.filter((page) => isLivePage(page.id));
    // one without notes beside it is wider than one with them: both are there
    expect(new Set(pages.map(({ view }) => view!.area.width)).size).toBe(2);
    for (const { id, view, state } of pages) {
      const { area, origin, ratio, wall: on } = view!;
      const wall = input.room.walls.find((w) => w.id === on);
      if (!wall) continue;
      const drawn = {
        x: origin.x,
        y: origin.y - wall.height / ratio,
        width: wall.length / ratio,
        height: wall.height / ratio,
      };
      expect(holds(area, drawn), id).toBe(true);
      const widest = Math.max(...pages.map((page) => page.view!.area.width));
      expect(area.width, id).toBe(
        state === undefined ? widest : Math.min(...pages.map((page) => page.view!.area.width)),
      );
    }
  },
);

it('keeps its place on the paper under a hand, even past the end of the wall', () => {
  const text = readFileSync(join(import.meta.dirname, '../../../../examples/lesson-room.plan.yaml'), 'utf8');
  const { document } = readPlan(text);
  const drawn = (from: string, held?: Held) => {
    const path = ['options', 0, 'pieces', 0, 'from'];
    const moved = applyToPlain(document.plain as PlainValue, [{ op: 'set', path, value: from }]);
    const { plan } = planOf(moved.ok ? moved.value : undefined);
    const outcome = settle(sceneOf(plan!, findOption(plan!)!), [], '2026-10-02');
    const input = packetInput(outcome, [], '2026-10-02');
    return (id: string) => drawLive(input, { paper: 'Letter', ...held }, [], id)!;
  };
  const at = drawn('6"');
  for (const id of ['elevation-north', 'plan']) {
    const before = at(id);
    const hold = before.view!;
    const spots = noSpots();
    expect(drawn('6"', { spots })(id)).toEqual(before);
    // where nothing moved the held drawing is the free one
    expect(drawn('6"', { hold, spots })(id)).toEqual(before);
    expect(drawn("11'", { hold, spots })(id).view).toEqual(hold);
    // and what is written stays legible on the way
    for (const from of ['7"', '9 1/2"', '1\' 3"', "2'"])
      expect(collisions(drawn(from, { hold, spots })(id)), from).toEqual([]);
  }
  // and let go of, it is laid anew so that all of it is on the sheet
  expect(drawn("11'")('elevation-north').view).not.toEqual(at('elevation-north').view);
});
