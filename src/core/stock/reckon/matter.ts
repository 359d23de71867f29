import { formula } from '../../notes/index.ts';
import { MATERIAL_NAMES, materialOf, woodDensity } from '../data/materials.ts';
import { gradeRow, PANEL_GRADE_NAMES, PANEL_GRADES, PANEL_KIND_NAMES, panelKindOf } from '../data/panels.ts';
import { SPECIES_NAMES, speciesOf } from '../data/species.ts';

const HANDBOOK = 'Wood Handbook: Wood as an Engineering Material, FPL-GTR-190';

/** kg of a box-shaped piece: sides in mm, density in kg/m³. */
export const massOf = (length: number, width: number, thickness: number, density: number): number =>
  length * width * thickness * 1e-9 * density;

const density = formula({
  name: 'wood-density',
  title: 'Density of wood at a moisture content',
  topic: 'stock',
  about: 'Mass of a cubic metre of a species, from its specific gravity and its moisture content.',
  formula: 'ρ = 1000 G (1 + M/100)',
  inputs: {
    species: { choices: SPECIES_NAMES, about: 'wood; or give its specific gravity', optional: true },
    gravity: { dimension: 'number', about: 'specific gravity', symbol: 'G', optional: true, above: 0, max: 1.5 },
    moisture: { dimension: 'percent', about: 'moisture content', symbol: 'M', default: 12, min: 0, max: 200 },
  },
  result: { symbol: 'ρ', name: 'density', dimension: 'density' },
  source: { title: HANDBOOK, edition: '2010', place: 'ch. 4, density' },
  assumes: ['G is of oven-dry mass over the volume at the moisture content of the test'],
  compute: ({ species, gravity, moisture }) => {
    if (gravity !== undefined) return woodDensity(gravity, moisture);
    if (species === undefined) throw new RangeError('name a species or give its specific gravity');
    const { gravity: G, stiffnessSource } = speciesOf(species);
    return {
      value: woodDensity(G, moisture),
      looked: [{ symbol: 'G', name: 'specific gravity at 12 %', value: G, unit: '', source: stiffnessSource }],
    };
  },
});

const weight = formula({
  name: 'piece-weight',
  title: 'Weight of a piece',
  topic: 'stock',
  about: 'Mass of a rectangular part or sheet.',
  formula: 'm = n · L · W · T · ρ',
  inputs: {
    length: { dimension: 'length', about: 'length', symbol: 'L', above: 0 },
    width: { dimension: 'length', about: 'width', symbol: 'W', above: 0 },
    thickness: { dimension: 'length', about: 'thickness', symbol: 'T', above: 0 },
    material: { choices: MATERIAL_NAMES, about: 'wood or panel; or give its density', optional: true },
    density: { dimension: 'density', about: 'density', symbol: 'ρ', optional: true, above: 0 },
    count: { dimension: 'count', about: 'how many', symbol: 'n', default: 1, min: 1 },
  },
  result: { symbol: 'm', name: 'mass', dimension: 'mass' },
  source: { title: HANDBOOK, edition: '2010', place: 'densities: ch. 4 and 5, table 12-1' },
  caution:
    'Heavy sheets are lifted by two, or broken down where they lie. Weigh what is unsure: boards vary by a tenth and more.',
  compute: ({ length, width, thickness, material, density: given, count }) => {
    if (given === undefined && material === undefined) throw new RangeError('name a material or give its density');
    const handbook = material === undefined ? undefined : materialOf(material);
    const ρ = given ?? handbook!.density;
    return {
      value: count * massOf(length, width, thickness, ρ),
      also: [{ symbol: 'm/L', name: 'mass of a metre of one', value: massOf(1000, width, thickness, ρ), unit: 'kg/m' }],
      ...(given === undefined && handbook
        ? {
            looked: [
              {
                symbol: 'ρ',
                name: handbook.group === 'panel' ? 'density, high end of its range' : 'density at 12 % moisture',
                value: ρ,
                unit: 'kg/m³',
                source: handbook.densitySource,
              },
            ],
          }
        : {}),
    };
  },
});

const stiffness = formula({
  name: 'wood-stiffness',
  title: 'Stiffness and strength of a wood',
  topic: 'stock',
  about: 'Handbook means of clear, straight-grained wood at 12 % moisture content.',
  formula: 'table',
  inputs: { species: { choices: SPECIES_NAMES, about: 'wood' } },
  result: { symbol: 'E', name: 'modulus of elasticity in bending', dimension: 'stress' },
  source: { title: HANDBOOK, edition: '2010', place: 'tables 5-3a, 5-3b and 12-1' },
  validity:
    'A mean: single boards vary by a fifth (coefficient of variation 22 %); knots and slope of grain take more.',
  compute: ({ species }) => {
    const wood = speciesOf(species);
    return {
      value: wood.modulus,
      source: wood.stiffnessSource,
      also: [
        { symbol: 'G', name: 'specific gravity', value: wood.gravity, unit: '' },
        ...(wood.rupture === undefined
          ? []
          : [{ symbol: 'R', name: 'modulus of rupture', value: wood.rupture, unit: 'MPa' }]),
      ],
    };
  },
});

const panelBending = formula({
  name: 'panel-stiffness',
  title: 'Stiffness of a panel kind',
  topic: 'stock',
  about: 'Range of bending properties of a kind of panel; the low end is what the shelf calculators use.',
  formula: 'table',
  inputs: { kind: { choices: PANEL_KIND_NAMES, about: 'kind of panel' } },
  result: { symbol: 'E', name: 'modulus of elasticity, low end', dimension: 'stress' },
  source: { title: HANDBOOK, edition: '2010', place: 'table 12-1' },
  compute: ({ kind }) => {
    const { modulus, rupture, density: range, source } = panelKindOf(kind);
    return {
      value: modulus[0],
      source,
      also: [
        { symbol: 'E_high', name: 'modulus of elasticity, high end', value: modulus[1], unit: 'MPa' },
        ...(rupture
          ? [
              { symbol: 'R', name: 'modulus of rupture, low end', value: rupture[0], unit: 'MPa' },
              { symbol: 'R_high', name: 'modulus of rupture, high end', value: rupture[1], unit: 'MPa' },
            ]
          : []),
        { symbol: 'ρ', name: 'density, low end', value: range[0], unit: 'kg/m³' },
        { symbol: 'ρ_high', name: 'density, high end', value: range[1], unit: 'kg/m³' },
      ],
    };
  },
});

const grade = formula({
  name: 'panel-grade',
  title: 'Least properties of a graded panel',
  topic: 'stock',
  about: 'What a product standard asks of a grade at a thickness: bending strength, stiffness, internal bond.',
  formula: 'table',
  inputs: {
    grade: { choices: PANEL_GRADE_NAMES, about: 'standard and grade' },
    thickness: { dimension: 'length', about: 'panel thickness', above: 0 },
    property: {
      choices: ['strength', 'modulus', 'bond'],
      about: 'bending strength, modulus of elasticity or internal bond',
      default: 'modulus',
    },
  },
  result: { symbol: 'f', name: 'required value', dimension: 'stress' },
  source: { title: 'EN 312, EN 622-5, ANSI A208.1, ANSI A208.2', place: 'tables of requirements' },
  compute: ({ grade: name, thickness, property }) => {
    const row = gradeRow(name, thickness);
    const value = property === 'strength' ? row?.rupture : property === 'modulus' ? row?.modulus : row?.bond;
    if (value === undefined)
      throw new RangeError(`the table kept here has no ${property} of ${name} at this thickness`);
    return { value, source: PANEL_GRADES[name].source };
  },
});

export const MATTER_CALCULATORS = [density, weight, stiffness, panelBending, grade] as const;
