import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packetPages, textsOf } from './drawing/index.ts';
import { collisions, crossings, overWalls, stars } from './drawing/pages/collisions.testing.ts';
import { anyRoom } from './drawing/pages/rooms.testing.ts';
import type { Working } from './notes/index.ts';
import { findOption, packetInput, workOut } from './outcome.ts';
import { type Option, type Plan, readPlan } from './plan/index.ts';

const TODAY = '2026-11-26';
const example = (name: string): Plan =>
  readPlan(readFileSync(new URL(`../../examples/${name}.plan.yaml`, import.meta.url), 'utf8')).plan!;

/** A figure with a unit that only one of the two systems has. */
const METRIC = /\d(?:\s?(?:mm|cm|km|kg|MPa|kPa)|\u00a0(?:m|g|N|L))(?:[²³⁴]|\b)/u;
const INCHES = /\d\s?(?:[′″]|in\b|ft\b|lb\b|lbf\b|psi\b|psf\b|qt\b|gal\b)/u;

/** What the pages of workings say, and which of them say outright that they reckon in metric units. */
function told(plan: Plan, option: Option): { readonly words: string; readonly metric: readonly Working[] } {
  const outcome = workOut(plan, option, { today: TODAY, effort: { steps: 0 } });
  const own = (w: Working | undefined): readonly Working[] => (w?.reckonedIn ? [w] : []);
  const metric = [...outcome.notes.flatMap((n) => own(n.working))];
  // titles are the plan's own words, and those of the notes are held to its units elsewhere
  const workings = outcome.notes.flatMap(({ working }) => (working && !working.reckonedIn ? [working] : []));
  const notes = workings.map((working, i) => ({
    id: `n${i}`,
    about: 'room',
    verdict: 'fine' as const,
    title: 'x',
    advice: '',
    working,
  }));
  const input = { ...packetInput(outcome, [], TODAY), notes };
  const pages = packetPages(input, { paper: 'A4' }).filter((page) => page.id.startsWith('workings'));
  const words = pages.flatMap((page) =>
    textsOf(page.marks)
      .filter((t) => t.height < 4)
      .map((t) => t.text),
  );
  // what a code of practice prescribes is told in its own words
  return { words: words.join(' ').replace(/\(NEC [^)]*\)/g, ''), metric };
}
const found = (words: string, pattern: RegExp): readonly string[] =>
  [...words.matchAll(new RegExp(`.{0,30}${pattern.source}`, 'gu'))].map((m) => m[0]);

describe('the whole packet of an example, with all that is found out about it', () => {
  it.each(['lesson-room', 'radio-corner'])('of the %s writes nothing over another, whichever its units', (name) => {
    const plan = example(name);
    for (const length of ['ft-in', 'mm'] as const) {
      const told = { ...plan, units: { ...plan.units, length } };
      const outcome = workOut(told, findOption(told)!, { today: TODAY, effort: { steps: 0 } });
      const input = packetInput(outcome, [], TODAY);
      const pages = packetPages(input, { paper: 'A4' });
      expect(pages.flatMap(collisions)).toEqual([]);
      expect(pages.flatMap(crossings)).toEqual([]);
      expect(pages.filter(({ id }) => /^(plan|piece|elevation)/.test(id)).flatMap(stars)).toEqual([]);
      expect(pages.filter((page) => page.id === 'plan').flatMap(overWalls)).toEqual([]);
      // a second sheet of either had a few lines on it
      const ids = pages.map((page) => page.id);
      expect(ids).toEqual(expect.arrayContaining(['sound', 'sound-treatment']));
      expect(ids.filter((id) => /^sound.*-2$/.test(id))).toEqual([]);
      const letter = packetPages(input, { paper: 'Letter' }).filter(({ id }) => /^(wiring|light)/.test(id));
      expect(letter.flatMap(collisions)).toEqual([]);
      const lit = [...ids, ...letter.map((page) => page.id)].filter((id) => /^(wiring|light)/.test(id));
      // six strips have more wires to cut than one sheet holds
      const one = name === 'lesson-room' ? ['wiring', 'light'] : ['wiring', 'wiring-2', 'light'];
      expect(lit).toEqual([...one, ...one]);
    }
  });
});

describe('the workings of a packet', () => {
  const both = (plan: Plan, option: Option): void => {
    const inUnits = (length: 'ft-in' | 'mm'): Plan => ({ ...plan, units: { ...plan.units, length } });
    expect(found(told(inUnits('ft-in'), option).words, METRIC)).toEqual([]);
    expect(found(told(inUnits('mm'), option).words, INCHES)).toEqual([]);
  };

  it.each(['lesson-room', 'radio-corner'])(
    'of the %s are said in the units of the plan, whichever they are',
    (name) => {
      const plan = example(name);
      both(plan, findOption(plan)!);
      // the lifting equation and a lens are held to their own units, and nothing else
      const metric = told(plan, findOption(plan)!).metric.map((w) => w.what.replace(/ of .*/, ''));
      expect(new Set(metric)).toEqual(new Set(['Lifting index', 'Depth']));
    },
  );

  it('of rooms never seen too', () =>
    fc.assert(
      fc.property(anyRoom, (room) => {
        const { plan, option } = room().input;
        both(plan, option);
      }),
      { numRuns: 6 },
    ));
});
