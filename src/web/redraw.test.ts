import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawLive } from '../core/drawing/index.ts';
import { findOption, packetInput, sceneOf, settle } from '../core/outcome.ts';
import { applyToPlain, type PlainValue, paperOf, planOf, readPlan } from '../core/plan/index.ts';
import { escapeXml, svgParts } from '../print/svg.ts';
import { firstPages } from './first-pages.ts';
import { WRITTEN } from './paper.ts';
import { changesTo, stepsTo } from './redraw.ts';

/** The old mark with the changes made in its text, element by element: what the page does to its elements. */
function changed(old: string, now: string): string {
  const changes = changesTo(old, now);
  let element = -1;
  return old.replace(
    /(<\w+)([^>]*?)(\/?>)([^<]*)/g,
    (_, tag: string, attributes: string, end: string, text: string) => {
      element++;
      const own = changes.filter((change) => change.element === element);
      const said = own.find(({ attribute }) => attribute === undefined);
      const anew = own.reduce(
        (all, { attribute, value }) =>
          attribute === undefined
            ? all
            : all.replace(new RegExp(` ${attribute}="[^"]*"`), () => ` ${attribute}="${escapeXml(value)}"`),
        attributes,
      );
      return `${tag}${anew}${end}${said ? escapeXml(said.value) : text}`;
    },
  );
}
/** What stands on the page after the steps, in its order. */
function after(old: readonly string[], now: readonly string[]): readonly string[] {
  const { from, same } = stepsTo(old, now);
  const kept = from.filter((j) => j >= 0);
  // elements keep their order, and none serves twice
  expect(kept).toEqual([...new Set(kept)].sort((a, b) => a - b));
  return now.map((mark, i) => (from[i]! < 0 ? mark : same[i] ? old[from[i]!]! : changed(old[from[i]!]!, mark)));
}

const anyText = fc.stringMatching(/^[a-z <>&"']{0,6}$/).map(escapeXml);
const anyMark = fc.oneof(
  fc.nat(30).map((x) => `<path class="p-thin s-ink" d="M${x} 0L1 ${x}"/>\n`),
  fc.tuple(fc.nat(9), anyText).map(([x, text]) => `<text class="f-ink" x="${x}" y="1">${text}</text>\n`),
  fc
    .tuple(fc.constantFrom('a', 'b'), anyText, fc.array(fc.nat(9), { maxLength: 3 }))
    .map(
      ([about, title, xs]) =>
        `<g data-about="${about}"><title>${title}</title>\n${xs.map((x) => `<path class="f-paper" d="M${x} 0H9Z"/>\n`).join('')}</g>\n`,
    ),
);
const anyMarks = fc.array(anyMark, { maxLength: 30 });

describe('a drawing that changes into another', () => {
  it('is the other, whatever of the first it keeps', () => {
    fc.assert(
      fc.property(anyMarks, anyMarks, (old, now) => {
        expect(after(old, now)).toEqual(now);
      }),
    );
  });

  it('keeps all but what was put in, taken out or altered', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(anyMark, { minLength: 1, maxLength: 30 }),
        fc.nat(),
        fc.constantFrom(0, 1, 2),
        (old, n, how) => {
          const at = n % old.length;
          const now = old.toSpliced(at, how === 0 ? 0 : 1, ...(how === 1 ? [] : ['<circle r="1"/>\n']));
          const { same } = stepsTo(old, now);
          expect(same.filter((kept) => !kept).length).toBe(how === 1 ? 0 : 1);
        },
      ),
    );
  });

  it('makes few elements anew while a case of the lesson room is moved along its wall', () => {
    const example = join(import.meta.dirname, '../../examples/lesson-room.plan.yaml');
    const { document } = readPlan(readFileSync(example, 'utf8'));
    const drawn = (inches: number): readonly string[] => {
      const path = ['options', 0, 'pieces', 0, 'from'];
      const moved = applyToPlain(document.plain as PlainValue, [{ op: 'set', path, value: `${inches}"` }]);
      const { plan } = planOf(moved.ok ? moved.value : undefined);
      const outcome = settle(sceneOf(plan!, findOption(plan!)!), [], '2026-10-02');
      const input = packetInput(outcome, [], '2026-10-02');
      return svgParts(drawLive(input, { paper: paperOf(plan!) }, firstPages(outcome), 'elevation-north')!, WRITTEN)
        .marks;
    };
    const [old, now] = [drawn(6), drawn(6.5)];
    expect(now).not.toEqual(old);
    expect(after(old, now)).toEqual(now);
    const { from, same } = stepsTo(old, now);
    expect(same.filter(Boolean).length).toBeGreaterThan(0.7 * now.length);
    expect(from.filter((j) => j < 0).length).toBeLessThan(0.1 * now.length);
  });
});
