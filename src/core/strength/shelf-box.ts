import { formula } from '../notes/index.ts';
import { STANDARD_GRAVITY } from '../quantity/index.ts';
import { MATERIAL_NAMES, materialOf } from '../stock/index.ts';
import { bendingStress } from './beam.ts';
import { CREEP_CLASSES, creepClassOf } from './creep.ts';
import { beamOnRods } from './rod-beam.ts';
import { rectangle, shelfSection } from './section.ts';
import { SAG_LIMITS } from './standards.ts';

export const shelfBox = formula({
  name: 'shelf-between-rods',
  title: 'Sag of a floating shelf between its rods and past them',
  topic: 'strength',
  about:
    'How far the box of a floating shelf bends along the wall, over the rods it is slid on, at once and after years.',
  formula: 'M₁l₁ + 2M₂(l₁ + l₂) + M₃l₂ = w(l₁³ + l₂³)/4,  δ = c · v(w, l, M)/(E I)',
  inputs: {
    length: { dimension: 'length', about: 'of the shelf, along the wall', symbol: 'L', above: 0 },
    rods: { dimension: 'length', about: 'middles of the rods, from the left end', symbol: 'x', list: true, min: 0 },
    depth: { dimension: 'length', about: 'of the skins, front to back', symbol: 'b', above: 0 },
    height: { dimension: 'length', about: 'over all', symbol: 'H', above: 0 },
    skin: { dimension: 'length', about: 'thickness of each skin', symbol: 't', above: 0 },
    webs: {
      dimension: 'length',
      about: 'total width of the bearers that run along between the skins; 0: each skin bends by itself',
      min: 0,
    },
    material: { choices: MATERIAL_NAMES, about: 'wood or panel of the skins' },
    'web-material': {
      choices: MATERIAL_NAMES,
      about: 'of the bearers; that of the skins when left out',
      optional: true,
    },
    'lip-height': { dimension: 'length', about: 'height of the lip along the front', optional: true, above: 0 },
    'lip-thickness': { dimension: 'length', about: 'thickness of the lip, front to back', optional: true, above: 0 },
    'lip-material': { choices: MATERIAL_NAMES, about: 'of the lip; that of the skins when left out', optional: true },
    load: { dimension: 'mass', about: 'the shelf and all that stands on it, evenly spread', symbol: 'm', min: 0 },
  },
  result: { symbol: 'δ', name: 'sag at once, where it is most of what is allowed', dimension: 'length' },
  source: {
    title: 'Euler–Bernoulli beam theory',
    place: 'continuous beams: the three-moment equation of Clapeyron (1857)',
  },
  validity: 'Small deflections of straight, even boxes. Shear adds less than 4 % while l/H ≥ 20.',
  caution:
    'A shelf overhead can hurt: fix it so that it cannot slide off, and let a building professional judge heavy or public loads.',
  assumes: [
    'the rods do not give: what they bend themselves comes on top',
    'one load evenly spread over the whole length; the notches over the rods are too short to count',
    'skins, bearers and lip glued, their glue lines do not slip; shear in the bearers and buckling of the skins left out',
    'the lowest modulus of a panel’s range, the mean of clear wood; single boards differ by a fifth',
  ],
  compute: (v) => {
    if (2 * v.skin > v.height || v.webs > v.depth)
      throw new RangeError('the skins or the bearers are thicker than the shelf');
    const E = materialOf(v.material).modulus;
    const modulusOf = (name: typeof v.material | undefined) => (name ? materialOf(name).modulus : E);
    const lip = v['lip-height'] !== undefined &&
      v['lip-thickness'] !== undefined && {
        height: v['lip-height'],
        thickness: v['lip-thickness'],
        modulus: modulusOf(v['lip-material']),
      };
    const section =
      v.webs > 0
        ? shelfSection({
            depth: v.depth,
            thickness: v.height,
            modulus: E,
            hollow: { skin: v.skin, webs: v.webs, webModulus: modulusOf(v['web-material']) },
            ...(lip && { lip }),
          })
        : {
            stiffness:
              2 * E * rectangle(v.depth, v.skin) + (lip ? lip.modulus * rectangle(lip.thickness, lip.height) : 0),
            axis: v.skin / 2,
          };
    const W = v.load * STANDARD_GRAVITY;
    const { parts, most } = beamOnRods(v.length, v.rods, W / v.length);
    const rule = SAG_LIMITS['L/144'];
    // an end that runs past its rod is as half a span twice as long: EN 1995-1-1, table 7.2
    const allowed = (part: (typeof parts)[number]) => rule.limit((part.kind === 'end' ? 2 : 1) * part.length);
    const share = (part: (typeof parts)[number]) => (part.length > 0 ? part.sag / allowed(part) : 0);
    const worst = parts.reduce((a, b) => (share(b) > share(a) ? b : a));
    const sag = Math.max(0, worst.sag) / section.stiffness;
    const later = creepClassOf(materialOf(v.material));
    const edge = v.webs > 0 ? Math.max(section.axis, v.height - section.axis) : v.skin / 2;
    return {
      value: sag,
      looked: [{ symbol: 'E', name: 'modulus of the skins', value: E, unit: 'MPa' }],
      also: [
        { symbol: 'δ∞', name: `sag after years, as ${later}`, value: sag * CREEP_CLASSES[later], unit: 'mm' },
        {
          symbol: 'l',
          name: worst.kind === 'end' ? 'what runs past the outer rod there' : 'between the two rods there',
          value: worst.length,
          unit: 'mm',
        },
        { symbol: 'W', name: 'load on the whole shelf', value: W, unit: 'N' },
        { symbol: 'EI', name: 'bending stiffness of the box (N·m²)', value: section.stiffness * 1e-6, unit: '' },
        { symbol: 'M', name: 'largest bending moment', value: most / 1000, unit: 'N·m' },
        {
          symbol: 'σ',
          name: 'stress of the skins there',
          value: bendingStress(most, E, edge, section.stiffness),
          unit: 'MPa',
        },
      ],
      limit: {
        value: allowed(worst),
        unit: 'mm',
        why: worst.kind === 'end' ? 'twice what runs past the rod, over 144' : rule.text,
        source: rule.source,
      },
    };
  },
});
