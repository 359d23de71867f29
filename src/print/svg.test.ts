import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Mark, type Page, packetPages } from '../core/drawing/index.ts';
import { smallInput } from '../core/drawing/packet.testing.ts';
import { escapeXml, sheetCss, toSvg } from './svg.ts';

const sheet = (marks: readonly Mark[]): Page => ({ id: 'p', number: 1, title: 'Page', width: 100, height: 50, marks });

describe('toSvg', () => {
  const pages = packetPages(smallInput(), { paper: 'A4' });
  it.each(['cover', 'plan', 'elevation-long', 'piece-music', 'details-music', 'parts-1', 'stick-long-1'])(
    'draws the page %s as it did',
    async (id) => {
      const page = pages.find((p) => p.id === id)!;
      await expect(toSvg(page, { decimals: 2 })).toMatchFileSnapshot(`golden/${id}.svg`);
    },
  );

  it('lets no text out of its element, whatever it says', () =>
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 40 }), (words) => {
        const svg = toSvg(
          sheet([
            { kind: 'text', at: { x: 1, y: 1 }, text: words, height: 2.5 },
            { kind: 'group', about: words, title: words, marks: [] },
          ]),
        );
        const inside = svg.replace(/<style>.*?<\/style>/s, '');
        const tags = inside.match(/<[^>]*>/g)!.map((t) => t.replace(/^<\/?([a-zA-Z]*).*/s, '$1'));
        expect(new Set(tags)).toEqual(new Set(['svg', 'title', 'path', 'text', 'g']));
        expect(inside.match(/&(?!(amp|lt|gt|quot|#39);)/)).toBeNull();
      }),
    ));

  it('draws a code dark on a light square with four modules of it all round, in every theme', () => {
    const code = { kind: 'code' as const, at: { x: 20, y: 10 }, size: 21, text: 'A1' };
    for (const theme of ['light', 'dark', 'auto', 'host'] as const) {
      const svg = toSvg(sheet([code]), { theme });
      // a code of so little is 21 modules wide
      expect(svg).toContain('<path fill="#fff" d="M16 6h29v29h-29z"/><path fill="#000" d="M20 10h7v1h-7z');
    }
  });

  it('holds no script and fetches nothing', () => {
    for (const page of pages) {
      const svg = toSvg(page, { theme: 'auto' });
      expect(svg).not.toMatch(/<script|javascript:|\son\w+=|href=|@import|url\(/i);
    }
  });

  it('has light, dark, and colours by the host', () => {
    expect(toSvg(sheet([]), { theme: 'dark' })).toContain('#1d1f22');
    expect(toSvg(sheet([]), { theme: 'auto' })).toContain('prefers-color-scheme:dark');
    expect(toSvg(sheet([]), { theme: 'host' })).not.toContain('<style');
    expect(sheetCss()).toContain('var(--sheet-ink');
  });

  it('replaces what XML cannot hold', () => {
    expect(escapeXml('a\u0000b\u000b\ud800c')).toBe('a\ufffdb\ufffd\ufffdc');
    expect(escapeXml(`<&>"'`)).toBe('&lt;&amp;&gt;&quot;&#39;');
  });
});
