import { formula, type Source, type WorkingInput } from '../notes/index.ts';
import { STANDARD_GRAVITY } from '../quantity/index.ts';
import { MATERIAL_NAMES, type MaterialName, materialOf } from '../stock/index.ts';
import {
  beamMoment,
  beamSag,
  bendingStress,
  OVERHANG_RULES,
  overhangFraction,
  overhangSags,
  POINT,
  SUPPORTS,
  shearShare,
  UNIFORM,
} from './beam.ts';
import {
  CREEP_CLASSES,
  CREEP_PRODUCTS,
  type CreepClass,
  creepClassOf,
  DURATION_PRODUCTS,
  deformationFactor,
  EC5_3_1,
  EC5_3_2,
  finalSag,
  LOAD_DURATIONS,
  SERVICE_CLASSES,
  strengthFactor,
} from './creep.ts';
import { hollow, rectangle, round, shelfSection } from './section.ts';
import { BOOKS, DESIGN_LOADS, type DesignLoad, SAG_LIMIT_NAMES, SAG_LIMITS, SPAN_GUIDE } from './standards.ts';

const ROARK: Source = {
  title: 'Young & Budynas, Roark’s Formulas for Stress and Strain',
  edition: '7th ed.',
  place: 'table 8.1',
};
const HANDBOOK_9: Source = {
  title: 'Wood Handbook: Wood as an Engineering Material, FPL-GTR-190',
  edition: '2010',
  place: 'eq. (9-2) and table 9-1',
};
const CAUTION =
  'A shelf overhead can hurt: fix it so that it cannot slide off, and let a building professional judge heavy or public loads.';

const materialInputs = {
  material: { choices: MATERIAL_NAMES, about: 'wood or panel; or give its modulus', optional: true },
  modulus: {
    dimension: 'stress',
    about: 'modulus of elasticity along the span',
    symbol: 'E',
    optional: true,
    above: 0,
  },
} as const;
const loadInputs = {
  load: {
    dimension: 'mass',
    about: 'everything that stands on one span, evenly spread',
    symbol: 'm',
    optional: true,
    min: 0,
  },
  'line-load': { dimension: 'line load', about: 'load per length of shelf', symbol: 'w', optional: true, min: 0 },
  'area-load': { dimension: 'area load', about: 'load per area of shelf', symbol: 'q', optional: true, min: 0 },
  'point-load': {
    dimension: 'force',
    about: 'one load in the middle of the span (a cantilever: at the tip)',
    symbol: 'P',
    optional: true,
    min: 0,
  },
} as const;
const supportInput = {
  choices: SUPPORTS,
  about:
    'supports: simple lies loose, fixed has both ends held stiff, propped one end, two-span runs over a middle support, cantilever comes from the wall only',
  default: 'simple',
} as const;
const lipInputs = {
  'lip-height': {
    dimension: 'length',
    about: 'height of a strip glued along the front edge, flush with the top',
    optional: true,
    above: 0,
  },
  'lip-thickness': { dimension: 'length', about: 'thickness of that strip, front to back', optional: true, above: 0 },
  'lip-material': {
    choices: MATERIAL_NAMES,
    about: 'wood of the strip; the shelf’s own when left out',
    optional: true,
  },
  'lip-modulus': { dimension: 'stress', about: 'modulus of the strip', optional: true, above: 0 },
} as const;

function stiffnessOf(
  material: MaterialName | undefined,
  modulus: number | undefined,
): { E: number; looked: WorkingInput[] } {
  if (modulus !== undefined) return { E: modulus, looked: [] };
  if (material === undefined) throw new RangeError('name a material or give its modulus');
  const known = materialOf(material);
  return {
    E: known.modulus,
    looked: [
      {
        symbol: 'E',
        name: known.group === 'panel' ? 'modulus of elasticity, low end of its range' : 'modulus of elasticity',
        value: known.modulus,
        unit: 'MPa',
        source: known.modulusSource,
      },
    ],
  };
}

/** Total uniform load on one span in N, from whatever was given. */
function uniformLoad(
  span: number,
  depth: number | undefined,
  given: { mass: number | undefined; line: number | undefined; area: number | undefined; point: number | undefined },
): number {
  const { mass, line, area, point } = given;
  if (mass === undefined && line === undefined && area === undefined && point === undefined)
    throw new RangeError('say what stands on it: load, line-load, area-load or point-load');
  if (area !== undefined && depth === undefined) throw new RangeError('an area-load needs the depth of the shelf');
  return (mass ?? 0) * STANDARD_GRAVITY + ((line ?? 0) * span) / 1000 + (area ?? 0) * 1e-6 * (depth ?? 0) * span;
}

interface LipGiven {
  readonly height: number | undefined;
  readonly thickness: number | undefined;
  readonly material: MaterialName | undefined;
  readonly modulus: number | undefined;
}
function lipOf({ height, thickness, material, modulus }: LipGiven, shelfModulus: number) {
  if (height === undefined && thickness === undefined) return undefined;
  if (height === undefined || thickness === undefined) throw new RangeError('a lip needs lip-height and lip-thickness');
  return { height, thickness, modulus: modulus ?? (material ? materialOf(material).modulus : shelfModulus) };
}

export const shelfSag = formula({
  name: 'shelf-sag',
  title: 'Sag of a shelf',
  topic: 'strength',
  about: 'How far a shelf bends under its load, at once and after years.',
  formula: 'δ = c · (k_u W + k_p P) L³ / (E I),  simple: k_u = 5/384, k_p = 1/48',
  inputs: {
    span: { dimension: 'length', about: 'clear distance between supports; of one span', symbol: 'L', above: 0 },
    depth: { dimension: 'length', about: 'front to back', symbol: 'b', above: 0 },
    thickness: { dimension: 'length', about: 'thickness', symbol: 'h', above: 0 },
    ...materialInputs,
    ...loadInputs,
    supports: supportInput,
    creep: {
      choices: Object.keys(CREEP_CLASSES) as CreepClass[],
      about: 'creep class for lasting loads: none gives the sag at once',
      default: 'none',
    },
    'creep-factor': {
      dimension: 'ratio',
      about: 'factor on the lasting part, instead of a class',
      symbol: 'c',
      optional: true,
      min: 1,
      max: 10,
    },
    'lasting-share': {
      dimension: 'ratio',
      about: 'share of the load that stays',
      symbol: 'ψ',
      default: 1,
      min: 0,
      max: 1,
    },
    ...lipInputs,
    skin: {
      dimension: 'length',
      about: 'skins of a hollow shelf: thickness of top and bottom',
      optional: true,
      above: 0,
    },
    webs: {
      dimension: 'length',
      about: 'webs of a hollow shelf: total width of what runs along between the skins, lip included',
      optional: true,
      min: 0,
    },
    limit: { choices: SAG_LIMIT_NAMES, about: 'limit to hold it against', default: 'L/144' },
  },
  result: { symbol: 'δ', name: 'sag', dimension: 'length' },
  source: ROARK,
  validity: 'Small deflections of straight, even boards. Shear adds less than 4 % while L/h ≥ 20.',
  caution: CAUTION,
  compute: (v) => {
    const { E, looked } = stiffnessOf(v.material, v.modulus);
    const lip = lipOf(
      {
        height: v['lip-height'],
        thickness: v['lip-thickness'],
        material: v['lip-material'],
        modulus: v['lip-modulus'],
      },
      E,
    );
    if (v.webs !== undefined && v.skin === undefined)
      throw new RangeError('a hollow shelf needs the thickness of its skin');
    if (v.skin !== undefined && (2 * v.skin > v.thickness || (v.webs ?? 0) > v.depth))
      throw new RangeError('the skins or the webs are thicker than the shelf');
    const section = shelfSection({
      depth: v.depth,
      thickness: v.thickness,
      modulus: E,
      ...(lip && { lip }),
      ...(v.skin !== undefined && { hollow: { skin: v.skin, webs: v.webs ?? 0 } }),
    });
    const uniform = uniformLoad(v.span, v.depth, {
      mass: v.load,
      line: v['line-load'],
      area: v['area-load'],
      point: v['point-load'],
    });
    const load = { span: v.span, supports: v.supports, uniform, point: v['point-load'] ?? 0 };
    const initial = beamSag(load, section.stiffness);
    const grown = (c: number) => initial * (1 + v['lasting-share'] * (c - 1));
    const c = v['creep-factor'] ?? CREEP_CLASSES[v.creep];
    const later = v.material === undefined ? undefined : creepClassOf(materialOf(v.material));
    const toEdge = (bottom: number) => Math.max(section.axis, bottom - section.axis);
    const stress = Math.max(
      ...[{ modulus: E, bottom: v.thickness }, ...(lip ? [{ modulus: lip.modulus, bottom: lip.height }] : [])].map(
        ({ modulus, bottom }) => bendingStress(beamMoment(load), modulus, toEdge(bottom), section.stiffness),
      ),
    );
    const rule = SAG_LIMITS[v.limit];
    return {
      value: grown(c),
      looked,
      also: [
        { symbol: 'δ₀', name: 'sag at once', value: initial, unit: 'mm' },
        ...(later === undefined
          ? []
          : [{ symbol: 'δ∞', name: `sag after years, as ${later}`, value: grown(CREEP_CLASSES[later]), unit: 'mm' }]),
        { symbol: 'W', name: 'spread load on the span', value: uniform, unit: 'N' },
        { symbol: 'I', name: 'second moment of area, referred to E', value: section.stiffness / E, unit: 'mm⁴' },
        { symbol: 'σ', name: 'bending stress', value: stress, unit: 'MPa' },
        { symbol: 'L/δ', name: 'span over sag', value: v.span / Math.max(grown(c), 1e-12), unit: '' },
      ],
      limit: { value: rule.limit(v.span), unit: 'mm', why: rule.text, source: rule.source },
      assumes: [
        'the stiffness is a mean of clear wood or the low end of a panel’s range; single boards differ by a fifth',
        ...(c === 1 ? ['the sag at once, without creep'] : ['creep as a factor on the lasting part of the load']),
        ...(v.skin === undefined
          ? []
          : ['skins and webs of one material, glued; shear in the webs and buckling of the skins left out']),
        ...(lip ? ['the strip runs the full length, its glue line does not slip, and the shelf does not twist'] : []),
        ...(v.supports === 'fixed' ? ['the ends cannot turn: pins, cleats and loose dadoes do not do that'] : []),
        ...(v.supports === 'two-span'
          ? ['both spans loaded alike; with one empty the other sags up to 1.7 times as far']
          : []),
        ...(v['area-load'] === undefined && v['line-load'] === undefined
          ? []
          : ['own weight left out unless it is in the load']),
      ],
    };
  },
});

const spanInputs = {
  thickness: { dimension: 'length', about: 'thickness', symbol: 'h', above: 0 },
  ...materialInputs,
  supports: supportInput,
  'limit-ratio': {
    dimension: 'number',
    about: 'sag allowed, as the span over this',
    symbol: 'n',
    default: 144,
    above: 0,
  },
  'limit-length': {
    dimension: 'length',
    about: 'sag allowed as a length, instead of a ratio',
    symbol: 'δ',
    optional: true,
    above: 0,
  },
  'creep-factor': { dimension: 'ratio', about: 'factor for lasting load', symbol: 'c', default: 1, min: 1, max: 10 },
} as const;

const shelfSpan = formula({
  name: 'shelf-span',
  title: 'Longest span of a shelf',
  topic: 'strength',
  about: 'How long a shelf of a thickness may be before it sags more than its limit.',
  formula: 'L = (E I / (c k w n))^(1/3),  or (δ E I / (c k w))^(1/4) for a fixed limit;  k = 5/384 when simple',
  inputs: {
    ...spanInputs,
    depth: {
      dimension: 'length',
      about: 'front to back; needed with a line-load only',
      symbol: 'b',
      optional: true,
      above: 0,
    },
    'area-load': { dimension: 'area load', about: 'load per area', symbol: 'q', optional: true, above: 0 },
    'line-load': { dimension: 'line load', about: 'load per length', symbol: 'w', optional: true, above: 0 },
  },
  result: { symbol: 'L', name: 'longest span', dimension: 'length' },
  source: ROARK,
  caution: CAUTION,
  compute: (v) => {
    const { E, looked } = stiffnessOf(v.material, v.modulus);
    const [area, line] = [v['area-load'], v['line-load']];
    if (area === undefined && line === undefined) throw new RangeError('say what stands on it: area-load or line-load');
    if (line !== undefined && v.depth === undefined) throw new RangeError('a line-load needs the depth of the shelf');
    // per millimetre of depth, so that the depth cancels for an area load
    const w = (area ?? 0) * 1e-6 + (line === undefined ? 0 : line / 1000 / v.depth!);
    const bend = (E * rectangle(1, v.thickness)) / (v['creep-factor'] * UNIFORM[v.supports].bending * w);
    const absolute = v['limit-length'];
    return {
      value: absolute === undefined ? (bend / v['limit-ratio']) ** (1 / 3) : (absolute * bend) ** (1 / 4),
      looked,
    };
  },
});

const shelfLoad = formula({
  name: 'shelf-load',
  title: 'Load a shelf carries within its sag limit',
  topic: 'strength',
  about: 'The evenly spread load at which a shelf reaches its limit.',
  formula: 'W = δ E I / (c k L³),  δ = L/n',
  inputs: {
    span: { dimension: 'length', about: 'clear distance between supports', symbol: 'L', above: 0 },
    depth: { dimension: 'length', about: 'front to back', symbol: 'b', above: 0 },
    ...spanInputs,
    ...lipInputs,
  },
  result: { symbol: 'm', name: 'load, evenly spread', dimension: 'mass' },
  source: ROARK,
  caution: CAUTION,
  assumes: ['sag decides, not strength: look at the stress with shelf-sag'],
  compute: (v) => {
    const { E, looked } = stiffnessOf(v.material, v.modulus);
    const lip = lipOf(
      {
        height: v['lip-height'],
        thickness: v['lip-thickness'],
        material: v['lip-material'],
        modulus: v['lip-modulus'],
      },
      E,
    );
    const { stiffness } = shelfSection({ depth: v.depth, thickness: v.thickness, modulus: E, ...(lip && { lip }) });
    const sag = v['limit-length'] ?? v.span / v['limit-ratio'];
    const force = (sag * stiffness) / (v['creep-factor'] * UNIFORM[v.supports].bending * v.span ** 3);
    return {
      value: force / STANDARD_GRAVITY,
      looked,
      also: [
        { symbol: 'W', name: 'as a force', value: force, unit: 'N' },
        { symbol: 'w', name: 'per length', value: (force / v.span) * 1000, unit: 'N/m' },
        { symbol: 'q', name: 'per area', value: (force / (v.span * v.depth)) * 1e6, unit: 'N/m²' },
      ],
    };
  },
});

const shelfThickness = formula({
  name: 'shelf-thickness',
  title: 'Least thickness of a shelf',
  topic: 'strength',
  about: 'How thick a plain shelf must be to stay within its limit.',
  formula: 'h = (12 c k W L³ / (δ E b))^(1/3)',
  inputs: {
    span: { dimension: 'length', about: 'clear distance between supports', symbol: 'L', above: 0 },
    depth: { dimension: 'length', about: 'front to back', symbol: 'b', above: 0 },
    ...materialInputs,
    ...loadInputs,
    supports: supportInput,
    'limit-ratio': spanInputs['limit-ratio'],
    'limit-length': spanInputs['limit-length'],
    'creep-factor': spanInputs['creep-factor'],
  },
  result: { symbol: 'h', name: 'least thickness', dimension: 'length' },
  source: ROARK,
  caution: CAUTION,
  compute: (v) => {
    const { E, looked } = stiffnessOf(v.material, v.modulus);
    const uniform = uniformLoad(v.span, v.depth, {
      mass: v.load,
      line: v['line-load'],
      area: v['area-load'],
      point: v['point-load'],
    });
    const sag = v['limit-length'] ?? v.span / v['limit-ratio'];
    const bent = UNIFORM[v.supports].bending * uniform + POINT[v.supports].bending * (v['point-load'] ?? 0);
    return { value: ((12 * v['creep-factor'] * bent * v.span ** 3) / (sag * E * v.depth)) ** (1 / 3), looked };
  },
});

const lipHeight = formula({
  name: 'lip-height',
  title: 'Front lip that cures a sagging shelf',
  topic: 'strength',
  about: 'Height of a strip along the front edge, flush with the top, that keeps a shelf within its limit.',
  formula: 'find the least height with c · (k_u W + k_p P) L³ / (E I) ≤ δ,  I of the transformed section',
  inputs: {
    span: { dimension: 'length', about: 'clear distance between supports', symbol: 'L', above: 0 },
    depth: { dimension: 'length', about: 'front to back', symbol: 'b', above: 0 },
    thickness: { dimension: 'length', about: 'thickness of the shelf', symbol: 'h', above: 0 },
    ...materialInputs,
    ...loadInputs,
    supports: supportInput,
    'lip-thickness': { dimension: 'length', about: 'thickness of the strip, front to back', symbol: 't', above: 0 },
    'lip-material': lipInputs['lip-material'],
    'lip-modulus': lipInputs['lip-modulus'],
    'limit-ratio': spanInputs['limit-ratio'],
    'limit-length': spanInputs['limit-length'],
    'creep-factor': spanInputs['creep-factor'],
  },
  result: { symbol: 'H', name: 'height of the strip', dimension: 'length' },
  source: ROARK,
  caution: CAUTION,
  assumes: ['the strip runs the full length, its glue line does not slip, and the shelf does not twist'],
  compute: (v) => {
    const { E, looked } = stiffnessOf(v.material, v.modulus);
    const uniform = uniformLoad(v.span, v.depth, {
      mass: v.load,
      line: v['line-load'],
      area: v['area-load'],
      point: v['point-load'],
    });
    const load = { span: v.span, supports: v.supports, uniform, point: v['point-load'] ?? 0 };
    const sag = v['limit-length'] ?? v.span / v['limit-ratio'];
    const modulus = v['lip-modulus'] ?? (v['lip-material'] ? materialOf(v['lip-material']).modulus : E);
    const board = { depth: v.depth, thickness: v.thickness, modulus: E };
    const sagWith = (height: number) =>
      v['creep-factor'] *
      beamSag(
        load,
        shelfSection({ ...board, ...(height > 0 && { lip: { height, thickness: v['lip-thickness'], modulus } }) })
          .stiffness,
      );
    if (sagWith(0) <= sag) return { value: 0, looked, assumes: ['it needs none'] };
    let [low, high] = [0, v.thickness];
    while (sagWith(high) > sag) {
      if (high > v.span)
        throw new RangeError('no sensible lip keeps it within the limit: shorten the span or add a support');
      high *= 2;
    }
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (sagWith(middle) > sag) low = middle;
      else high = middle;
    }
    return { value: high, looked };
  },
});

const limitOf = formula({
  name: 'sag-limit',
  title: 'Sag a shelf may have',
  topic: 'strength',
  about: 'The limit of a standard or trade rule for a span.',
  formula: 'table',
  inputs: {
    rule: { choices: SAG_LIMIT_NAMES, about: 'standard or rule', default: 'L/144' },
    span: { dimension: 'length', about: 'span of the shelf', symbol: 'L', above: 0 },
  },
  result: { symbol: 'δ', name: 'sag allowed', dimension: 'length' },
  source: { title: 'Architectural Woodwork Standards ed. 1 and ANSI/KCMA A161.1', place: 'see the working' },
  compute: ({ rule, span }) => ({
    value: SAG_LIMITS[rule].limit(span),
    source: SAG_LIMITS[rule].source,
    assumes: [SAG_LIMITS[rule].text],
  }),
});

const designLoad = formula({
  name: 'design-load',
  title: 'Load a shelf or floor is designed for',
  topic: 'strength',
  about: 'Load per area by standard and use.',
  formula: 'table',
  inputs: { use: { choices: Object.keys(DESIGN_LOADS) as DesignLoad[], about: 'standard and use' } },
  result: { symbol: 'q', name: 'design load', dimension: 'area load' },
  source: { title: 'Architectural Woodwork Standards ed. 1, ANSI/KCMA A161.1, IBC', place: 'see the working' },
  caution: 'Floors: ask a structural engineer before a wall of books stands on a timber floor.',
  compute: ({ use }) => ({
    value: DESIGN_LOADS[use].load,
    source: DESIGN_LOADS[use].source,
    assumes: [DESIGN_LOADS[use].note],
  }),
});

const books = formula({
  name: 'book-load',
  title: 'Weight of a row of books',
  topic: 'strength',
  about: 'What a shelf full of books weighs.',
  formula: 'm = w L / g',
  inputs: {
    length: { dimension: 'length', about: 'length of the row', symbol: 'L', above: 0 },
    size: { choices: ['ordinary', 'large'], about: 'ordinary 20 lb/ft, large 25 lb/ft', default: 'large' },
    'per-length': {
      dimension: 'line load',
      about: 'weight per length, where it is known',
      symbol: 'w',
      optional: true,
      above: 0,
    },
  },
  result: { symbol: 'm', name: 'mass of the row', dimension: 'mass' },
  source: 'common practice',
  compute: ({ length, size, 'per-length': given }) => {
    const w = given ?? BOOKS[size];
    return {
      value: ((w / 1000) * length) / STANDARD_GRAVITY,
      looked:
        given === undefined
          ? [{ symbol: 'w', name: 'weight per length', value: w, unit: 'N/m', source: 'common practice' }]
          : [],
    };
  },
});

const guide = formula({
  name: 'shelf-span-guide',
  title: 'Workshop rule for shelf spans',
  topic: 'strength',
  about: 'Longest span of common shelves for about 42 lb in the middle: a guide to hold a reckoned span against.',
  formula: 'table',
  inputs: {
    shelf: { choices: Object.keys(SPAN_GUIDE) as (keyof typeof SPAN_GUIDE)[], about: 'thickness and material' },
  },
  result: { symbol: 'L', name: 'longest span', dimension: 'length' },
  source: 'common practice',
  compute: ({ shelf }) => SPAN_GUIDE[shelf],
});

const shear = formula({
  name: 'shear-share',
  title: 'Shear part of a beam’s deflection',
  topic: 'strength',
  about: 'How much shear adds to the bending deflection of a rectangular wooden beam.',
  formula: 'δ_s/δ_b = (k_s/k_b)(E/G)(1.2/12)(h/L)²',
  inputs: {
    thickness: { dimension: 'length', about: 'height of the beam', symbol: 'h', above: 0 },
    span: { dimension: 'length', about: 'span', symbol: 'L', above: 0 },
    supports: { choices: ['simple', 'fixed', 'cantilever'], about: 'how it is held', default: 'simple' },
    loaded: {
      choices: ['uniform', 'point'],
      about: 'evenly, or one load in the middle (at the tip)',
      default: 'uniform',
    },
    'moduli-ratio': {
      dimension: 'ratio',
      about: 'modulus of elasticity over shear modulus',
      symbol: 'E/G',
      default: 16,
      above: 0,
    },
  },
  result: { symbol: 'δ_s/δ_b', name: 'shear over bending deflection', dimension: 'ratio' },
  source: HANDBOOK_9,
  compute: (v) => {
    const constants = (v.loaded === 'uniform' ? UNIFORM : POINT)[v.supports];
    return shearShare(constants, v.thickness, v.span, v['moduli-ratio']);
  },
});

const constants = formula({
  name: 'beam-constants',
  title: 'Constants of beam deflection',
  topic: 'strength',
  about: 'k_b and k_s of δ = k_b W L³/(E I) + k_s W L/(G A′), and the moment constant m of M = m W L.',
  formula: 'table',
  inputs: {
    supports: { choices: SUPPORTS, about: 'how it is held' },
    loaded: { choices: ['uniform', 'point'], about: 'evenly, or one load in the middle (at the tip)' },
  },
  result: { symbol: 'k_b', name: 'bending constant', dimension: 'number' },
  source: ROARK,
  compute: ({ supports, loaded }) => {
    const c = (loaded === 'uniform' ? UNIFORM : POINT)[supports];
    return {
      value: c.bending,
      also: [
        { symbol: 'm', name: 'moment constant', value: c.moment, unit: '' },
        ...(c.shear === undefined ? [] : [{ symbol: 'k_s', name: 'shear constant', value: c.shear, unit: '' }]),
      ],
    };
  },
});

const overhang = formula({
  name: 'support-overhang',
  title: 'Where to put two supports under a board',
  topic: 'strength',
  about: 'Overhang at each end, as a share of the length, by what is to be equal.',
  formula:
    'equal sag: 5l⁴/384 − a²l²/16 = a⁴/8 + a³l/4 − al³/24, l = L − 2a;  equal moment: (√2−1)/2;  level ends: (1−1/√3)/2',
  inputs: {
    rule: {
      choices: OVERHANG_RULES,
      about: 'rule: equal sag of middle and tips, equal moments, or level ends',
      default: 'equal sag',
    },
    length: {
      dimension: 'length',
      about: 'length of the board, to see the overhang as a length',
      symbol: 'L',
      optional: true,
      above: 0,
    },
  },
  result: { symbol: 'a/L', name: 'overhang over length', dimension: 'ratio' },
  source: { title: 'Euler–Bernoulli beam theory', place: 'uniform load; level ends: Airy points' },
  compute: ({ rule, length }) => {
    const a = overhangFraction(rule);
    const { middle, tip } = overhangSags(a);
    return {
      value: a,
      also: [
        {
          symbol: 'δ/δ₀',
          name: 'largest sag over that of the board held at its ends',
          value: Math.max(Math.abs(middle), Math.abs(tip)) / (5 / 384),
          unit: '',
        },
        ...(length === undefined ? [] : [{ symbol: 'a', name: 'overhang', value: a * length, unit: 'mm' }]),
      ],
    };
  },
});

const hollowSection = formula({
  name: 'hollow-section',
  title: 'Stiffness of a hollow shelf',
  topic: 'strength',
  about: 'Second moment of area of skins over webs, and how it compares with solid ones.',
  formula: 'I = (B H³ − b h³)/12,  b = B − webs, h = H − 2·skin',
  inputs: {
    width: { dimension: 'length', about: 'front to back', symbol: 'B', above: 0 },
    height: { dimension: 'length', about: 'over all', symbol: 'H', above: 0 },
    skin: { dimension: 'length', about: 'thickness of each skin', symbol: 't', above: 0 },
    webs: { dimension: 'length', about: 'total width of the webs, lips included', min: 0 },
    'compared-thickness': { dimension: 'length', about: 'solid board to compare with', default: 18, above: 0 },
  },
  result: { symbol: 'I', name: 'second moment of area', dimension: 'second moment of area' },
  source: 'common practice',
  assumes: ['one material throughout; glue lines do not slip; the skins do not buckle between the webs'],
  compute: (v) => {
    const [voidWidth, voidHeight] = [v.width - v.webs, v.height - 2 * v.skin];
    if (voidWidth < 0 || voidHeight < 0) throw new RangeError('the skins or the webs are thicker than the shelf');
    const I = hollow(v.width, v.height, voidWidth, voidHeight);
    return {
      value: I,
      also: [
        {
          symbol: 'I/I_s',
          name: 'over that of the same shelf made solid',
          value: I / rectangle(v.width, v.height),
          unit: '',
        },
        {
          symbol: 'I/I_b',
          name: 'over that of the solid board compared',
          value: I / rectangle(v.width, v['compared-thickness']),
          unit: '',
        },
      ],
    };
  },
});

const lippedSection = formula({
  name: 'lipped-section',
  title: 'Stiffness of a shelf with a front lip',
  topic: 'strength',
  about: 'Second moment of area, referred to the shelf’s own modulus, of a shelf with a strip along its front edge.',
  formula: 'ȳ = Σ n A y / Σ n A,  I = Σ n (I₀ + A (y − ȳ)²),  n = E_lip/E_shelf',
  inputs: {
    depth: { dimension: 'length', about: 'front to back, without the lip', symbol: 'b', above: 0 },
    thickness: { dimension: 'length', about: 'thickness of the shelf', symbol: 'h', above: 0 },
    'lip-height': { dimension: 'length', about: 'height of the strip, flush with the top', symbol: 'H', above: 0 },
    'lip-thickness': { dimension: 'length', about: 'thickness of the strip', symbol: 't', above: 0 },
    'moduli-ratio': {
      dimension: 'ratio',
      about: 'modulus of the strip over that of the shelf',
      symbol: 'n',
      default: 1,
      above: 0,
    },
  },
  result: { symbol: 'I', name: 'second moment of area', dimension: 'second moment of area' },
  source: { title: 'Transformed-section method', place: 'any text on strength of materials' },
  assumes: ['the strip runs the full length; its glue line does not slip'],
  compute: (v) => {
    const { stiffness, axis } = shelfSection({
      depth: v.depth,
      thickness: v.thickness,
      modulus: 1,
      lip: { height: v['lip-height'], thickness: v['lip-thickness'], modulus: v['moduli-ratio'] },
    });
    return {
      value: stiffness,
      also: [
        { symbol: 'ȳ', name: 'neutral axis below the top', value: axis, unit: 'mm' },
        {
          symbol: 'I/I₀',
          name: 'over that of the shelf alone',
          value: stiffness / rectangle(v.depth, v.thickness),
          unit: '',
        },
      ],
    };
  },
});

const rod = formula({
  name: 'rod-section',
  title: 'Stiffness of a rod or tube',
  topic: 'strength',
  about: 'Second moment of area of a round rod, solid or bored.',
  formula: 'I = π (d⁴ − d_i⁴)/64',
  inputs: {
    diameter: { dimension: 'length', about: 'outside diameter', symbol: 'd', above: 0 },
    bore: { dimension: 'length', about: 'inside diameter', symbol: 'd_i', default: 0, min: 0 },
  },
  result: { symbol: 'I', name: 'second moment of area', dimension: 'second moment of area' },
  source: ROARK,
  compute: ({ diameter, bore }) => {
    if (bore >= diameter) throw new RangeError('the bore must be smaller than the rod');
    const I = round(diameter, bore);
    return { value: I, also: [{ symbol: 'S', name: 'section modulus (mm³)', value: (2 * I) / diameter, unit: '' }] };
  },
});

const STEEL_MODULUS = 200_000;
export const rodShelf = formula({
  name: 'rod-shelf',
  title: 'Floating shelf on rods',
  topic: 'strength',
  about: 'Tip sag, stress and wall moment of a hollow shelf carried by steel rods out of the wall.',
  formula: 'δ = (W_r/8 + P_r/3) L³/(E I),  σ = (W_r/2 + P_r) L (d/2)/I;  W_r, P_r of the most loaded rod',
  inputs: {
    rods: { dimension: 'count', about: 'number of rods', symbol: 'n', min: 1, max: 50 },
    diameter: { dimension: 'length', about: 'rod diameter', symbol: 'd', above: 0 },
    bore: { dimension: 'length', about: 'inside diameter of a tube', default: 0, min: 0 },
    reach: { dimension: 'length', about: 'free length of rod out of its socket', symbol: 'L', above: 0 },
    load: { dimension: 'mass', about: 'shelf and all that stands on it, evenly spread', symbol: 'm', min: 0 },
    'tip-load': {
      dimension: 'force',
      about: 'someone leaning on the front edge, all on one rod',
      symbol: 'P',
      default: 0,
      min: 0,
    },
    share: {
      dimension: 'ratio',
      about: 'load of the most loaded rod over the mean; 1 when the shelf is stiff',
      default: 1,
      min: 1,
      max: 50,
    },
    modulus: { dimension: 'stress', about: 'modulus of the rod', symbol: 'E', default: STEEL_MODULUS, above: 0 },
    yield: {
      dimension: 'stress',
      about: 'yield stress of the rod; 235 MPa is plain structural steel',
      default: 235,
      above: 0,
    },
  },
  result: { symbol: 'δ', name: 'tip sag', dimension: 'length' },
  source: ROARK,
  caution:
    'Things fall from a shelf that turns in its sockets: rods must bear on solid framing, not on plasterboard; have heavy ones checked.',
  assumes: [
    'the sockets hold the rods stiff: play and crushing of the wood come on top',
    'the shelf is stiff beside its rods, so that they share evenly (share 1); a limp shelf on three rods loads the middle one 1.9 times the mean',
  ],
  compute: (v) => {
    if (v.bore >= v.diameter) throw new RangeError('the bore must be smaller than the rod');
    const I = round(v.diameter, v.bore);
    // more than all of it, where the shelf reaches past its rods and lifts another
    const W = (v.share / v.rods) * v.load * STANDARD_GRAVITY;
    const load = { span: v.reach, supports: 'cantilever', uniform: W, point: v['tip-load'] } as const;
    const moment = beamMoment(load);
    const stress = (moment * v.diameter) / 2 / I;
    return {
      value: beamSag(load, v.modulus * I),
      also: [
        { symbol: 'σ', name: 'stress in the most loaded rod', value: stress, unit: 'MPa' },
        { symbol: 'M', name: 'moment at its socket', value: moment / 1000, unit: 'N·m' },
        { symbol: 'σ_y/σ', name: 'yield over stress', value: v.yield / Math.max(stress, 1e-12), unit: '' },
      ],
    };
  },
});

const creepFactor = formula({
  name: 'creep-factor',
  title: 'Creep of wood under a lasting load',
  topic: 'strength',
  about: 'Factor on the first sag after years: K_cr for lumber, 1 + k_def for wood and panels in a heated room.',
  formula: 'δ_total = c δ_long + δ_short',
  inputs: { class: { choices: Object.keys(CREEP_CLASSES) as CreepClass[], about: 'kind of wood or panel' } },
  result: { symbol: 'c', name: 'creep factor', dimension: 'ratio' },
  source: { title: 'NDS 3.5.2 (lumber); EN 1995-1-1 table 3.2, service class 1 (others)' },
  validity: 'Real boards range from 1 to 3 times the first sag.',
  compute: ({ class: kind }) => CREEP_CLASSES[kind],
});

const kdef = formula({
  name: 'deformation-factor',
  title: 'Deformation factor k_def',
  topic: 'strength',
  about: 'What a permanent load adds to the first deflection over the years.',
  formula: 'table',
  inputs: {
    product: { choices: CREEP_PRODUCTS, about: 'wood product' },
    'service-class': {
      choices: SERVICE_CLASSES,
      about: 'service class: 1 heated room, 2 unheated under a roof, 3 weather',
      default: '1',
    },
  },
  result: { symbol: 'k_def', name: 'deformation factor', dimension: 'ratio' },
  source: EC5_3_2,
  compute: (v) => deformationFactor(v.product, v['service-class']),
});

const final = formula({
  name: 'final-sag',
  title: 'Final deflection with creep',
  topic: 'strength',
  about: 'First deflection grown by creep, as EN 1995-1-1 reckons it.',
  formula: 'u_fin = u_inst (1 + ψ₂ k_def)',
  inputs: {
    initial: { dimension: 'length', about: 'deflection at once', symbol: 'u_inst', min: 0 },
    product: { choices: CREEP_PRODUCTS, about: 'wood product; or give its factor', optional: true },
    'service-class': {
      choices: SERVICE_CLASSES,
      about: 'service class: 1 heated room, 2 unheated under a roof, 3 weather',
      default: '1',
    },
    factor: { dimension: 'ratio', about: 'deformation factor', symbol: 'k_def', optional: true, min: 0 },
    'lasting-share': {
      dimension: 'ratio',
      about: 'quasi-permanent share: 1 permanent, 0.8 storage, 0.3 living rooms',
      symbol: 'ψ₂',
      default: 1,
      min: 0,
      max: 1,
    },
  },
  result: { symbol: 'u_fin', name: 'final deflection', dimension: 'length' },
  source: { title: 'EN 1995-1-1', edition: '2004+A1', place: 'eqs. (2.3), (2.4); ψ₂ of EN 1990 table A1.1' },
  compute: (v) => {
    if (v.factor === undefined && v.product === undefined) throw new RangeError('name a product or give its factor');
    const k = v.factor ?? deformationFactor(v.product!, v['service-class']);
    return {
      value: finalSag(v.initial, k, v['lasting-share']),
      looked:
        v.factor === undefined
          ? [{ symbol: 'k_def', name: 'deformation factor', value: k, unit: '', source: EC5_3_2 }]
          : [],
    };
  },
});

const kmod = formula({
  name: 'strength-factor',
  title: 'Strength modification factor k_mod',
  topic: 'strength',
  about: 'Share of the short-term strength that is left under a lasting load.',
  formula: 'table',
  inputs: {
    product: { choices: DURATION_PRODUCTS, about: 'wood product' },
    'service-class': {
      choices: SERVICE_CLASSES,
      about: 'service class: 1 heated room, 2 unheated under a roof, 3 weather',
      default: '1',
    },
    duration: { choices: LOAD_DURATIONS, about: 'how long the load lasts', default: 'long' },
  },
  result: { symbol: 'k_mod', name: 'strength modification factor', dimension: 'ratio' },
  source: EC5_3_1,
  compute: (v) => strengthFactor(v.product, v['service-class'], v.duration),
});

export const SHELF_CALCULATORS = [
  shelfSag,
  shelfSpan,
  shelfLoad,
  shelfThickness,
  lipHeight,
  limitOf,
  designLoad,
  books,
  guide,
  shear,
  constants,
  overhang,
  hollowSection,
  lippedSection,
  rod,
  rodShelf,
  creepFactor,
  kdef,
  final,
  kmod,
] as const;
