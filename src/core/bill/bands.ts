import type { Note } from '../notes/index.ts';
import type { Plan } from '../plan/index.ts';
import type { Part } from '../scene/index.ts';

/** Bands that are narrower than an edge they are to cover; where the plan gives no width, nothing can be said. */
export const bandNotes = (parts: readonly Part[], plan: Plan, show: (length: number) => string): readonly Note[] =>
  plan.stock.packs.flatMap(({ id, name, width }): readonly Note[] => {
    if (width === undefined) return [];
    const bare = parts.filter((p) => p.size.thickness > width && p.edges.some((edge) => edge.band === id));
    if (bare.length === 0) return [];
    const thickest = Math.max(...bare.map((p) => p.size.thickness));
    return [
      {
        id: `band-too-narrow:${id}`,
        about: id,
        verdict: 'caution',
        title: `${name ?? id} is ${show(width)} wide, and the edges of ${bare.length === 1 ? 'one part' : `${bare.length} parts`} are up to ${show(thickest)}`,
        advice: 'Take a wider band for them, or leave those edges bare: a band is trimmed flush, never stretched.',
        working: {
          what: 'Width of an edge band',
          formula: 'width ≥ thickness of the part',
          inputs: [{ symbol: 't', name: 'thickest edge it is to cover', value: thickest, unit: 'mm' }],
          result: { value: width, unit: 'mm' },
          limit: { value: thickest, unit: 'mm', why: 'the edge' },
          source: 'common practice',
          assumes: ['the width is that of the band as bought, trimming included'],
        },
      },
    ];
  });
