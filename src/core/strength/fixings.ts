import { formula, type Source } from '../notes/index.ts';
import { USUAL_SAFETY } from '../plan/index.ts';
import { convert, inch, STANDARD_GRAVITY } from '../quantity/index.ts';
import { SPECIES_NAMES, type SpeciesName, speciesOf } from '../stock/index.ts';
import { NDS, OVERHEAD } from './cited.ts';
import {
  bracketReactions,
  bracketTensions,
  DISPLAY_PATTERNS,
  type DisplayPattern,
  GYPSUM_BOARDS,
  mountProofMass,
  mountTestForce,
  tippingPull,
} from './hanging.ts';
import { WALL_CABINET_PROOF } from './standards.ts';
import {
  pulloutSteel,
  pulloverSteel,
  SCREW_SAFETY,
  SHEET_GAUGES,
  STUD_MILS_NAMES,
  screwShearSteel,
  studThickness,
} from './steel-fixing.ts';
import {
  combinedResistance,
  FASTENERS,
  lagWithdrawal,
  lateralValue,
  nailWithdrawal,
  STEEL_BEARING,
  screwWithdrawalUltimate,
  WOOD_SCREWS,
  type WoodScrew,
  woodScrewWithdrawal,
} from './timber-fixing.ts';

const S100 = (place: string): Source => ({
  title: 'AISI S100 North American Specification for Cold-Formed Steel',
  edition: '2007/2012',
  place,
});
const TIMBER_ASSUMES = [
  'dry framing, side grain, lead hole as the standard asks, normal load duration; the adjustment factors of the NDS come on top',
  'the thread length counted leaves out the tapered tip',
] as const;

export const woodInputs = {
  gravity: {
    dimension: 'number',
    about: 'specific gravity of the framing: spruce-pine-fir 0.42, Douglas-fir 0.50, southern pine 0.55',
    symbol: 'G',
    optional: true,
    above: 0,
    max: 1.2,
  },
  species: { choices: SPECIES_NAMES, about: 'wood, instead of its specific gravity', optional: true },
} as const;
/** Load duration factor C_D. Source: NDS-2018, table 2.3.2; impact does not apply to connections. */
export const DURATION_FACTOR = {
  permanent: 0.9,
  'ten years': 1,
  'two months': 1.15,
  'seven days': 1.25,
  'ten minutes': 1.6,
} as const;
export const durationInput = {
  choices: Object.keys(DURATION_FACTOR) as (keyof typeof DURATION_FACTOR)[],
  about: 'how long the load lasts: factor 0.9, 1, 1.15, 1.25, 1.6; what hangs for good is permanent',
  default: 'ten years',
} as const;
const END_GRAIN = 'Screws and nails must not be pulled out of end grain: NDS 12.2.2.3 and 12.2.3.3.';

export function gravityOf(gravity: number | undefined, species: SpeciesName | undefined): number {
  if (gravity !== undefined) return gravity;
  if (species === undefined) throw new RangeError('give the specific gravity of the framing, or its species');
  return speciesOf(species).gravity;
}

const lag = formula({
  name: 'lag-withdrawal',
  title: 'Withdrawal of a lag screw',
  topic: 'strength',
  about: 'Allowable pull straight out of the side grain of framing.',
  formula: 'W = 1800 G^1.5 D^0.75 · p · C_D · (0.75 in end grain)  (lb, in)',
  inputs: {
    diameter: { dimension: 'length', about: 'unthreaded shank', symbol: 'D', above: 0 },
    ...woodInputs,
    penetration: {
      dimension: 'length',
      about: 'thread in the framing, tip left out',
      symbol: 'p',
      default: 25.4,
      above: 0,
    },
    grain: { choices: ['side', 'end'], about: 'grain it goes into: end grain takes three quarters', default: 'side' },
    'load-duration': durationInput,
    count: { dimension: 'count', about: 'how many share the pull', default: 1, min: 1 },
  },
  result: { symbol: 'W', name: 'reference withdrawal value', dimension: 'force' },
  source: NDS('eq. (12.2-1), table 12.2A, 12.2.1.4'),
  caution: OVERHEAD,
  assumes: TIMBER_ASSUMES,
  compute: (v) => {
    const w =
      lagWithdrawal(gravityOf(v.gravity, v.species), v.diameter) *
      DURATION_FACTOR[v['load-duration']] *
      (v.grain === 'end' ? 0.75 : 1);
    return {
      value: v.count * w * v.penetration,
      also: [{ symbol: 'w', name: 'per length of thread', value: w * 1000, unit: 'N/m' }],
    };
  },
});

const screwInputs = {
  diameter: {
    dimension: 'length',
    about: 'shank diameter; or give the screw number',
    symbol: 'D',
    optional: true,
    above: 0,
  },
  number: { choices: Object.keys(WOOD_SCREWS) as WoodScrew[], about: 'screw number', optional: true },
} as const;
function screwDiameter(diameter: number | undefined, number: WoodScrew | undefined): number {
  if (diameter !== undefined) return diameter;
  if (number === undefined) throw new RangeError('give the diameter or the screw number');
  return inch(WOOD_SCREWS[number]);
}

const woodScrew = formula({
  name: 'screw-withdrawal',
  title: 'Withdrawal of a wood screw',
  topic: 'strength',
  about: 'Allowable pull straight out of the side grain of framing; breaking load beside it.',
  formula: 'W = 2850 G² D · p · C_D  (lb, in)',
  inputs: {
    ...screwInputs,
    ...woodInputs,
    penetration: {
      dimension: 'length',
      about: 'thread in the framing, tip left out',
      symbol: 'p',
      default: 25.4,
      above: 0,
    },
    'load-duration': durationInput,
    count: { dimension: 'count', about: 'how many share the pull', default: 1, min: 1 },
  },
  result: { symbol: 'W', name: 'reference withdrawal value', dimension: 'force' },
  source: NDS('eq. (12.2-2), table 12.2B; screw numbers table L3'),
  validity: END_GRAIN,
  caution: OVERHEAD,
  assumes: TIMBER_ASSUMES,
  compute: (v) => {
    const G = gravityOf(v.gravity, v.species);
    const D = screwDiameter(v.diameter, v.number);
    const w = woodScrewWithdrawal(G, D) * DURATION_FACTOR[v['load-duration']];
    const broken = screwWithdrawalUltimate(G, D);
    return {
      value: v.count * w * v.penetration,
      also: [
        { symbol: 'w', name: 'per length of thread', value: w * 1000, unit: 'N/m' },
        {
          symbol: 'W_u',
          name: 'breaking load, 15 700 G² D p (FPL-GTR-190 eq. 8-10)',
          value: v.count * broken * v.penetration,
          unit: 'N',
        },
        { symbol: 'W_u/W', name: 'breaking over allowable', value: broken / w, unit: '' },
      ],
    };
  },
});

const nail = formula({
  name: 'nail-withdrawal',
  title: 'Withdrawal of a plain nail',
  topic: 'strength',
  about: 'Allowable pull straight out of the side grain: little, which is why nothing hangs on nails.',
  formula: 'W = 1380 G^2.5 D · p · C_D  (lb, in)',
  inputs: {
    diameter: { dimension: 'length', about: 'shank diameter', symbol: 'D', above: 0 },
    ...woodInputs,
    penetration: { dimension: 'length', about: 'depth in the framing', symbol: 'p', default: 25.4, above: 0 },
    'load-duration': durationInput,
    count: { dimension: 'count', about: 'how many share the pull', default: 1, min: 1 },
  },
  result: { symbol: 'W', name: 'reference withdrawal value', dimension: 'force' },
  source: NDS('eq. (12.2-3)'),
  validity: END_GRAIN,
  caution: OVERHEAD,
  assumes: ['a plain bright shank; brads hold a joint only until the glue has dried'],
  compute: (v) =>
    v.count *
    nailWithdrawal(gravityOf(v.gravity, v.species), v.diameter) *
    v.penetration *
    DURATION_FACTOR[v['load-duration']],
});

const lateral = formula({
  name: 'lateral-value',
  title: 'Shear of a nail or screw in framing',
  topic: 'strength',
  about: 'Allowable load across one fastener in single shear: the least of six ways it can yield.',
  formula: 'Z = C_D · min(I_m, I_s, II, III_m, III_s, IV)',
  inputs: {
    fastener: { choices: FASTENERS, about: 'kind of fastener', default: 'wood screw' },
    diameter: {
      dimension: 'length',
      about: 'diameter that bends: nail shank, or thread root where thread crosses the joint',
      symbol: 'D',
      above: 0,
    },
    nominal: { dimension: 'length', about: 'nominal diameter, when the root is given', optional: true, above: 0 },
    'side-thickness': {
      dimension: 'length',
      about: 'thickness of what is fixed: bracket, rail or board',
      symbol: 't_s',
      above: 0,
    },
    gap: {
      dimension: 'length',
      about: 'between the two: hollow, or plasterboard, which is crushed before it bears',
      symbol: 'g',
      default: 0,
      min: 0,
    },
    penetration: { dimension: 'length', about: 'depth in the framing', symbol: 'p', optional: true, above: 0 },
    gravity: woodInputs.gravity,
    species: woodInputs.species,
    side: {
      choices: ['wood', ...(Object.keys(STEEL_BEARING) as (keyof typeof STEEL_BEARING)[])],
      about: 'what is fixed is made of',
      default: 'wood',
    },
    'side-gravity': {
      dimension: 'number',
      about: 'specific gravity of a wooden side member; the framing’s when left out',
      optional: true,
      above: 0,
      max: 1.2,
    },
    'load-duration': durationInput,
    grain: {
      choices: ['along', 'across'],
      about: 'load along or across the grain (matters from 1/4 in up)',
      default: 'along',
    },
  },
  result: { symbol: 'Z', name: 'reference lateral value', dimension: 'force' },
  source: NDS('tables 12.3.1A, 12.3.1B, 12.3.3; appendix I'),
  caution: OVERHEAD,
  assumes: ['over a gap the general dowel equations of AWC TR12 (from memory)', TIMBER_ASSUMES[0]],
  compute: (v) => {
    const G = gravityOf(v.gravity, v.species);
    const nominal = v.nominal ?? v.diameter;
    const { value, modes } = lateralValue({
      fastener: v.fastener,
      diameter: v.diameter,
      nominal,
      sideThickness: v['side-thickness'],
      gap: v.gap,
      penetration: v.penetration ?? 10 * nominal,
      mainGravity: G,
      side: v.side === 'wood' ? { gravity: v['side-gravity'] ?? G } : { steel: v.side },
      acrossGrain: v.grain === 'across',
    });
    const C = DURATION_FACTOR[v['load-duration']];
    return {
      value: value * C,
      also: Object.entries(modes).map(([mode, Z]) => ({
        symbol: mode,
        name: `yield mode ${mode}`,
        value: Z,
        unit: 'N',
      })),
      ...(v.penetration === undefined && { assumes: ['ten diameters of penetration'] }),
    };
  },
});

const combinedLoading = formula({
  name: 'combined-loading',
  title: 'Screw pulled at an angle',
  topic: 'strength',
  about: 'Resistance when pull-out and shear act together.',
  formula: 'Z′α = W Z / (W cos²α + Z sin²α)',
  inputs: {
    withdrawal: { dimension: 'force', about: 'allowable withdrawal', symbol: 'W', above: 0 },
    lateral: { dimension: 'force', about: 'allowable shear', symbol: 'Z', above: 0 },
    angle: {
      dimension: 'angle',
      about: 'angle of the load to the surface: 0 along it, 90 straight out',
      symbol: 'α',
      optional: true,
      min: 0,
      max: 90,
    },
    tension: {
      dimension: 'force',
      about: 'pull out of the wall that acts, instead of an angle',
      symbol: 'T',
      optional: true,
      min: 0,
    },
    shear: { dimension: 'force', about: 'shear that acts', symbol: 'V', optional: true, min: 0 },
  },
  result: { symbol: 'Z′α', name: 'resistance along the load', dimension: 'force' },
  source: NDS('eq. (12.4-1)'),
  caution: OVERHEAD,
  compute: (v) => {
    if (v.angle === undefined && v.tension === undefined && v.shear === undefined)
      throw new RangeError('give the angle, or the tension and the shear that act');
    const [T, V] = [v.tension ?? 0, v.shear ?? 0];
    if (v.angle === undefined && T === 0 && V === 0) throw new RangeError('nothing pulls on it');
    const angle = v.angle ?? (Math.atan2(T, V) * 180) / Math.PI;
    const value = combinedResistance(v.withdrawal, v.lateral, angle);
    const load = Math.hypot(T, V);
    return {
      value,
      also: [
        { symbol: 'α', name: 'angle of the load', value: angle, unit: '°' },
        ...(load > 0 ? [{ symbol: 'R/F', name: 'resistance over load', value: value / load, unit: '' }] : []),
      ],
    };
  },
});

const margin = formula({
  name: 'fixing-margin',
  title: 'Margin of a fixing',
  topic: 'strength',
  about: 'Capacity over demand; below 1 it does not hold.',
  formula: 'η = n R / (γ F)',
  inputs: {
    capacity: { dimension: 'force', about: 'allowable load of one fixing', symbol: 'R', above: 0 },
    demand: { dimension: 'force', about: 'load on the group', symbol: 'F', above: 0 },
    count: { dimension: 'count', about: 'fixings that share it', symbol: 'n', default: 1, min: 1 },
    factor: {
      dimension: 'ratio',
      about: 'extra factor on the load, e.g. 4 as mounts are tested',
      symbol: 'γ',
      default: 1,
      above: 0,
    },
  },
  result: { symbol: 'η', name: 'capacity over demand', dimension: 'ratio' },
  source: 'common practice',
  caution: OVERHEAD,
  compute: (v) => (v.count * v.capacity) / (v.factor * v.demand),
});

const studMils = formula({
  name: 'steel-stud-thickness',
  title: 'Thickness of a steel stud by mils',
  topic: 'strength',
  about: 'Design and least base-metal thickness.',
  formula: 't = t_min / 0.95',
  inputs: { mils: { choices: STUD_MILS_NAMES, about: 'thickness in mils, as coloured and stamped on the stud' } },
  result: { symbol: 't', name: 'design thickness', dimension: 'length' },
  source: { title: 'AISI S201 / S220', place: 'thickness table' },
  compute: ({ mils }) => {
    const { least, design } = studThickness(mils);
    return { value: design, also: [{ symbol: 't_min', name: 'least base-metal thickness', value: least, unit: 'mm' }] };
  },
});

const gauge = formula({
  name: 'sheet-gauge',
  title: 'Thickness of sheet by gauge',
  topic: 'strength',
  about: 'The same gauge number means three different sheets: a reason to speak of mils.',
  formula: 'table',
  inputs: {
    system: { choices: Object.keys(SHEET_GAUGES) as (keyof typeof SHEET_GAUGES)[], about: 'whose gauge' },
    gauge: { choices: ['12', '14', '16', '18', '20', '25'], about: 'gauge number' },
  },
  result: { symbol: 't', name: 'thickness', dimension: 'length' },
  source: { title: 'framing and sheet-metal gauge tables', place: 'as reprinted by the trade press' },
  compute: ({ system, gauge: number }) => {
    const table: Readonly<Record<string, number>> = SHEET_GAUGES[system];
    const value = table[number];
    if (value === undefined) throw new RangeError(`the table of ${system} kept here has no gauge ${number}`);
    return inch(value);
  },
});

const steelInputs = {
  diameter: {
    dimension: 'length',
    about: 'screw diameter; or give the screw number',
    symbol: 'd',
    optional: true,
    above: 0,
  },
  number: screwInputs.number,
  ultimate: {
    dimension: 'stress',
    about: 'ultimate stress of the stud; 45 ksi (310 MPa) unless it is known',
    symbol: 'F_u',
    default: convert(45, 'ksi', 'stress'),
    above: 0,
  },
  safety: { dimension: 'ratio', about: 'safety factor', symbol: 'Ω', default: SCREW_SAFETY, min: 1 },
} as const;
const studInputs = {
  mils: { choices: STUD_MILS_NAMES, about: 'stud thickness in mils; or give a thickness', optional: true },
  thickness: { dimension: 'length', about: 'design thickness of the sheet', symbol: 't', optional: true, above: 0 },
} as const;
function sheetThickness(thickness: number | undefined, mils: (typeof STUD_MILS_NAMES)[number] | undefined): number {
  if (thickness !== undefined) return thickness;
  if (mils === undefined) throw new RangeError('give the thickness of the sheet or the mils of the stud');
  return studThickness(mils).design;
}
const nominalToo = (nominal: number) => [{ symbol: 'P_n', name: 'nominal strength', value: nominal, unit: 'N' }];

const pullout = formula({
  name: 'steel-stud-pullout',
  title: 'Pull-out of a screw from a steel stud',
  topic: 'strength',
  about: 'Allowable pull of a screw in the thin steel of a stud.',
  formula: 'P = 0.85 t d F_u / Ω',
  inputs: {
    ...studInputs,
    ...steelInputs,
    count: { dimension: 'count', about: 'screws that share the pull', default: 1, min: 1 },
  },
  result: { symbol: 'P', name: 'allowable pull-out', dimension: 'force' },
  source: S100('section E4.4.1 (J4.4.1)'),
  validity: 'Later editions adjust this equation: check the edition your code names.',
  caution: OVERHEAD,
  assumes: [
    'the screw goes through the flange by three threads; plasterboard adds nothing',
    'no prying by a bracket that stands off the stud',
  ],
  compute: (v) => {
    const nominal =
      v.count * pulloutSteel(sheetThickness(v.thickness, v.mils), screwDiameter(v.diameter, v.number), v.ultimate);
    return { value: nominal / v.safety, also: nominalToo(nominal) };
  },
});

const pullover = formula({
  name: 'steel-pullover',
  title: 'Pull-over of a sheet over a screw head',
  topic: 'strength',
  about: 'Allowable pull at which the sheet under the head tears over it.',
  formula: 'P = 1.5 t d_w F_u / Ω',
  inputs: {
    thickness: { dimension: 'length', about: 'sheet under the head', symbol: 't', above: 0 },
    head: { dimension: 'length', about: 'head or washer diameter, at most 3/4 in counted', symbol: 'd_w', above: 0 },
    ultimate: steelInputs.ultimate,
    safety: steelInputs.safety,
  },
  result: { symbol: 'P', name: 'allowable pull-over', dimension: 'force' },
  source: S100('section E4.4.2 (J4.4.2)'),
  caution: OVERHEAD,
  compute: (v) => {
    const nominal = pulloverSteel(v.thickness, v.head, v.ultimate);
    return { value: nominal / v.safety, also: nominalToo(nominal) };
  },
});

const steelShear = formula({
  name: 'steel-screw-shear',
  title: 'Shear of a screw between two sheets',
  topic: 'strength',
  about: 'Allowable shear by tilting and bearing; the screw’s own strength is in its maker’s table.',
  formula:
    't₂/t₁ ≤ 1: min(4.2 √(t₂³ d) F_u2, 2.7 t₁ d F_u1, 2.7 t₂ d F_u2)/Ω;  ≥ 2.5: the last two;  between: straight line',
  inputs: {
    'head-thickness': { dimension: 'length', about: 'sheet under the head', symbol: 't₁', above: 0 },
    ...studInputs,
    ...steelInputs,
    'head-ultimate': {
      dimension: 'stress',
      about: 'ultimate stress of the sheet under the head; the stud’s when left out',
      symbol: 'F_u1',
      optional: true,
      above: 0,
    },
  },
  result: { symbol: 'P', name: 'allowable shear', dimension: 'force' },
  source: S100('section E4.3.1 (J4.3.1)'),
  caution: OVERHEAD,
  compute: (v) => {
    const nominal = screwShearSteel(
      { thickness: v['head-thickness'], ultimate: v['head-ultimate'] ?? v.ultimate },
      { thickness: sheetThickness(v.thickness, v.mils), ultimate: v.ultimate },
      screwDiameter(v.diameter, v.number),
    );
    return { value: nominal / v.safety, also: nominalToo(nominal) };
  },
});

const anchor = formula({
  name: 'anchor-working-load',
  title: 'Working load of a hollow-wall or masonry anchor',
  topic: 'strength',
  about:
    'The maker’s ultimate figure divided by a safety factor. Published figures differ by more than two: use the packet’s own.',
  formula: 'R = R_u / γ',
  inputs: {
    ultimate: {
      dimension: 'force',
      about: 'ultimate load by the maker, for this board or masonry',
      symbol: 'R_u',
      above: 0,
    },
    safety: {
      dimension: 'ratio',
      about: `safety factor: at least ${USUAL_SAFETY}`,
      symbol: 'γ',
      default: USUAL_SAFETY,
      min: 1,
    },
    count: { dimension: 'count', about: 'anchors that share the load', default: 1, min: 1 },
  },
  result: { symbol: 'R', name: 'working load', dimension: 'force' },
  source: 'common practice',
  caution: OVERHEAD,
  compute: (v) => (v.count * v.ultimate) / v.safety,
});

const bracketTension = formula({
  name: 'bracket-tension',
  title: 'Pull on the top fixings of a bracket',
  topic: 'strength',
  about: 'A shelf bracket, a hung cabinet, a display arm: the load turns about the lower edge, the top fixings hold.',
  formula: 'T = m g e / h',
  inputs: {
    load: { dimension: 'mass', about: 'mass of all that hangs', symbol: 'm', above: 0 },
    reach: { dimension: 'length', about: 'wall to centre of gravity', symbol: 'e', min: 0 },
    height: { dimension: 'length', about: 'lower edge to top fixings', symbol: 'h', above: 0 },
    fixings: { dimension: 'count', about: 'top fixings that share it', symbol: 'n', default: 1, min: 1 },
  },
  result: { symbol: 'T', name: 'pull, each top fixing', dimension: 'force' },
  source: { title: 'Statics', place: 'moments about the lower edge' },
  caution: OVERHEAD,
  assumes: ['only the top fixings pull; the lower edge bears on something that does not crush'],
  compute: (v) => {
    const weight = v.load * STANDARD_GRAVITY;
    return {
      value: (weight * v.reach) / v.height / v.fixings,
      also: [{ symbol: 'V', name: 'weight to be shared as shear', value: weight, unit: 'N' }],
    };
  },
});

const rowTensions = formula({
  name: 'row-tensions',
  title: 'Pull on each row of fixings',
  topic: 'strength',
  about: 'A stiff plate or rail with several rows: the higher a row stands above the lower edge, the more it takes.',
  formula: 'T_i = M y_i / Σ n y²,  M = m g e',
  inputs: {
    load: { dimension: 'mass', about: 'mass of all that hangs', symbol: 'm', optional: true, above: 0 },
    reach: { dimension: 'length', about: 'wall to centre of gravity', symbol: 'e', optional: true, min: 0 },
    moment: { dimension: 'moment', about: 'moment, instead of load and reach', symbol: 'M', optional: true, above: 0 },
    heights: { dimension: 'length', about: 'of the rows above the lower edge', symbol: 'y', list: true, min: 0 },
    'per-row': { dimension: 'count', about: 'fixings in a row', symbol: 'n', default: 1, min: 1 },
  },
  result: { symbol: 'T', name: 'pull, each fixing of the most loaded row', dimension: 'force' },
  source: { title: 'Statics', place: 'rigid plate turning about its lower edge, equal fixings' },
  caution: OVERHEAD,
  compute: (v) => {
    const rows = v.heights.map((height) => ({ height, count: v['per-row'] }));
    if (v.moment === undefined && (v.load === undefined || v.reach === undefined))
      throw new RangeError('give load and reach, or the moment');
    const tension =
      v.moment === undefined
        ? bracketReactions(v.load!, v.reach!, rows).tension
        : bracketTensions(v.moment * 1000, rows);
    return {
      value: Math.max(...tension),
      also: [
        ...tension.map((T, i) => ({ symbol: `T${i + 1}`, name: `pull in row ${i + 1}`, value: T, unit: 'N' })),
        ...(v.load === undefined
          ? []
          : [
              {
                symbol: 'V',
                name: 'shear, each fixing',
                value: (v.load * STANDARD_GRAVITY) / (v.heights.length * v['per-row']),
                unit: 'N',
              },
            ]),
      ],
    };
  },
});

const tipping = formula({
  name: 'tipping-pull',
  title: 'Pull that tips a free-standing case',
  topic: 'strength',
  about:
    'How hard one has to pull at a height before a case tips forward; an open drawer or a climbing child does more.',
  formula: 'F = m g (d/2) / h',
  inputs: {
    mass: { dimension: 'mass', about: 'mass of the case', symbol: 'm', above: 0 },
    depth: { dimension: 'length', about: 'front to back of its foot', symbol: 'd', above: 0 },
    height: { dimension: 'length', about: 'of the pull', symbol: 'h', above: 0 },
  },
  result: { symbol: 'F', name: 'pull that tips it', dimension: 'force' },
  source: { title: 'Statics', place: 'moments about the front edge' },
  caution: 'Fix every case that is taller than it is deep to the framing, whatever this says: children climb.',
  assumes: ['the centre of gravity stands in the middle of the depth, the floor is level, doors and drawers are shut'],
  compute: (v) => tippingPull(v.mass, v.depth, v.height),
});

export const displayPattern = formula({
  name: 'display-pattern',
  title: 'Hole pattern of a flat display',
  topic: 'strength',
  about: 'Hole spacing, screw and mass of the flat-display mounting interface.',
  formula: 'table',
  inputs: { pattern: { choices: Object.keys(DISPLAY_PATTERNS) as DisplayPattern[], about: 'variant and spacing' } },
  result: { symbol: 'm', name: 'mass the pattern is meant for', dimension: 'mass' },
  source: { title: 'VESA Flat Display Mounting Interface (FDMI)', place: 'MIS-B to MIS-F' },
  caution: 'Screw length and thread are the display maker’s: too long a screw breaks what is behind.',
  compute: ({ pattern }) => {
    const { across, up, screw, mass } = DISPLAY_PATTERNS[pattern];
    return {
      value: mass,
      also: [
        { symbol: 'a', name: 'holes apart, across', value: across, unit: 'mm' },
        { symbol: 'b', name: 'holes apart, up', value: up, unit: 'mm' },
        { symbol: 'M', name: 'metric screw', value: screw, unit: 'mm' },
      ],
    };
  },
});

const proof = formula({
  name: 'mount-proof-load',
  title: 'Load a mount is tested with',
  topic: 'strength',
  about: 'Total load in the mounting-means test of product standards: a yardstick for what the wall should take.',
  formula: 'P = W + max(3 W, 10 lb)',
  inputs: { mass: { dimension: 'mass', about: 'mass of what hangs', symbol: 'W', above: 0 } },
  result: { symbol: 'P', name: 'test load, as a mass', dimension: 'mass' },
  source: { title: 'UL product standards', place: 'mounting means test' },
  caution: OVERHEAD,
  compute: ({ mass }) => mountProofMass(mass),
});

const testForce = formula({
  name: 'mount-test-force',
  title: 'Force added in the wall-mount test of audio/video gear',
  topic: 'strength',
  about: 'Covers the mounting means, not the wall.',
  formula: 'F = min(3 W, W + 880 N)',
  inputs: { mass: { dimension: 'mass', about: 'mass of the equipment', above: 0 } },
  result: { symbol: 'F', name: 'force added', dimension: 'force' },
  source: 'from memory',
  validity: 'IEC 62368-1:2014, clause 8.7, test 1.',
  caution: OVERHEAD,
  compute: ({ mass }) => mountTestForce(mass),
});

const gypsum = formula({
  name: 'gypsum-board',
  title: 'Strength of plasterboard',
  topic: 'strength',
  about: 'Breaking load of a test strip: how little the board itself carries.',
  formula: 'table',
  inputs: { board: { choices: ['1/2 in', '5/8 in'], about: 'thickness of wallboard' } },
  result: { symbol: 'F', name: 'flexural strength across the board', dimension: 'force' },
  source: { title: 'GA-235, gypsum board typical mechanical and physical properties', edition: '2010' },
  caution: OVERHEAD,
  compute: ({ board }) => {
    const { across, along, stiffness, weight } = GYPSUM_BOARDS[board];
    return {
      value: convert(across, 'lbf', 'force'),
      also: [
        { symbol: 'F_∥', name: 'flexural strength along the board', value: convert(along, 'lbf', 'force'), unit: 'N' },
        { symbol: 'EI', name: 'stiffness of an inch of width, low (lb·in²)', value: stiffness[0], unit: '' },
        { symbol: 'EI_high', name: 'stiffness of an inch of width, high (lb·in²)', value: stiffness[1], unit: '' },
        {
          symbol: 'w',
          name: 'weight per area (from memory)',
          value: convert(weight, 'psf', 'area load'),
          unit: 'N/m²',
        },
      ],
    };
  },
});

/** Notch and bore limits of wooden studs as shares of their depth. Source: IRC R602.6. */
export const STUD_CUTS = {
  'notch, bearing wall': 0.25,
  'notch, other wall': 0.4,
  'hole, bearing wall': 0.4,
  'hole, other wall': 0.6,
} as const;

const notch = formula({
  name: 'stud-cut-limit',
  title: 'Notch or hole a wooden stud may have',
  topic: 'strength',
  about: 'Deepest notch or widest hole by wall; at least 5/8 in of wood must stay to the edge of a hole.',
  formula: 'share · depth:  notch 25 % bearing, 40 % other; hole 40 % bearing, 60 % other',
  inputs: {
    depth: { dimension: 'length', about: 'actual depth of the stud', symbol: 'd', above: 0 },
    cut: { choices: Object.keys(STUD_CUTS) as (keyof typeof STUD_CUTS)[], about: 'what is cut, in which wall' },
  },
  result: { symbol: 'c', name: 'largest cut', dimension: 'length' },
  source: { title: 'International Residential Code', place: 'R602.6' },
  caution: 'Cables and pipes in the wall, bearing walls and your local code: ask the licensed trades before cutting.',
  compute: ({ depth, cut }) => ({
    value: STUD_CUTS[cut] * depth,
    ...(cut.startsWith('hole') && {
      also: [{ symbol: 'e', name: 'wood to leave at each edge', value: inch(5 / 8), unit: 'mm' }],
    }),
  }),
});

const cabinetProof = formula({
  name: 'cabinet-proof-load',
  title: 'Load that a mounted wall cabinet is tested with',
  topic: 'strength',
  about: 'Loaded evenly inside; with its depth and height, what that asks of each of its top fixings.',
  formula: 'F = 500 lb;  T = F (d/2) / (h n),  V = F / n',
  inputs: {
    depth: { dimension: 'length', about: 'of the cabinet', symbol: 'd', optional: true, above: 0 },
    height: { dimension: 'length', about: 'lower edge to top fixings', symbol: 'h', optional: true, above: 0 },
    fixings: { dimension: 'count', about: 'top fixings', symbol: 'n', default: 2, min: 1 },
  },
  result: { symbol: 'F', name: 'proof load', dimension: 'force' },
  source: { title: 'ANSI/KCMA A161.1', place: 'structural tests 5.1 and 5.2, as reprinted' },
  caution: OVERHEAD,
  assumes: ['a test of the cabinet on fixings of the laboratory’s own: what stands behind your wall decides'],
  compute: ({ depth, height, fixings }) => ({
    value: WALL_CABINET_PROOF,
    also: [
      { symbol: 'V', name: 'along the wall, each fixing', value: WALL_CABINET_PROOF / fixings, unit: 'N' },
      ...(depth !== undefined && height !== undefined
        ? [
            {
              symbol: 'T',
              name: 'pull, each top fixing',
              value: (WALL_CABINET_PROOF * depth) / 2 / height / fixings,
              unit: 'N',
            },
          ]
        : []),
    ],
  }),
});

export const FIXING_CALCULATORS = [
  cabinetProof,
  lag,
  woodScrew,
  nail,
  lateral,
  combinedLoading,
  margin,
  studMils,
  gauge,
  pullout,
  pullover,
  steelShear,
  anchor,
  bracketTension,
  rowTensions,
  tipping,
  displayPattern,
  proof,
  testForce,
  gypsum,
  notch,
] as const;
