import {
  BoxGeometry,
  Color,
  EdgesGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshLambertMaterial,
  Plane,
  PlaneGeometry,
  Shape,
  ShapeGeometry,
  Vector2,
  Vector3,
} from 'three';
import { boxesOf } from '../core/drawing/index.ts';
import { type Box, type Frame, vec } from '../core/geometry/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { METRES } from './round-stand.ts';

/** What lies flat on a wall, and that wall's face: it is left out with the wall one looks through. */
export interface Flat {
  readonly group: Group;
  readonly face: Plane;
}
/** A part, and where it goes when the parts are pulled apart, metres. */
export interface Flying {
  readonly mesh: Group;
  readonly away: Vector3;
}
export interface BuiltSet {
  readonly group: Group;
  readonly flying: readonly Flying[];
  readonly flat: readonly Flat[];
}

/** How far an opening stands out of its wall so that it shows, mm. */
const OPENING = 6;
/** Of the way from the middle of its piece a part goes so far again. */
const AWAY = 0.9;
/** Kinds that lie flat on their wall and would hang in the air before the room without it. */
const FLAT: ReadonlySet<string> = new Set(['lining', 'trim', 'absorber']);
const COLOURS = {
  wall: '#d8d2c4',
  floor: '#bfb49d',
  opening: '#f4f6f7',
  display: '#2b2d30',
  bought: '#8d8478',
  wood: '#cdb892',
} as const;

/** Room and set as bodies: the same boxes as are drawn. What is cut away by `plane` is not shown. */
export function builtSet({ plan, room, pieces }: Outcome, ink: Color, plane: Plane): BuiltSet {
  const group = new Group();
  const flying: Flying[] = [];
  const flat: Flat[] = [];
  const { face, lines } = materials(ink, plane);

  const sides = new Map<string, Plane>();
  for (const wall of room.walls) {
    // seen from inside only: the wall one looks through is left out
    const mesh = new Mesh(
      new PlaneGeometry(wall.length * METRES, wall.height * METRES),
      new MeshLambertMaterial({ color: COLOURS.wall, clippingPlanes: [plane] }),
    );
    const turn = turnOf(wall.frame);
    const along = new Vector3(Math.cos(turn), 0, -Math.sin(turn));
    const { x, y, z } = wall.frame.origin;
    mesh.position
      .set(x * METRES, (y + wall.height / 2) * METRES, z * METRES)
      .addScaledVector(along, (wall.length / 2) * METRES);
    mesh.rotation.y = turn;
    group.add(mesh);
    const inwards = new Vector3(Math.sin(turn), 0, Math.cos(turn));
    sides.set(wall.id, new Plane().setFromNormalAndCoplanarPoint(inwards, mesh.position));
  }

  const floor = new Shape(room.outline.map((p) => new Vector2(p.x * METRES, -p.z * METRES)));
  const ground = new Mesh(
    new ShapeGeometry(floor),
    new MeshLambertMaterial({ color: COLOURS.floor, clippingPlanes: [plane] }),
  );
  ground.rotation.x = -Math.PI / 2;
  group.add(ground);

  for (const { wall: id, x, y } of room.openings) {
    const wall = room.walls.find((w) => w.id === id);
    if (!wall) continue;
    const on = standing(wall.frame);
    on.add(...solid({ min: vec(x[0], y[0], 0), max: vec(x[1], y[1], OPENING) }, face(COLOURS.opening), lines));
    group.add(on);
    flat.push({ group: on, face: sides.get(id)! });
  }

  const colours = new Map([...plan.stock.panels, ...plan.stock.boards].map((s) => [s.id, s.colour]));
  for (const piece of pieces) {
    const whole = standing(piece.frame);
    const middle = middleOf(piece.outside);
    const bodies =
      piece.parts.length > 0
        ? piece.parts.map((p) => ({ boxes: boxesOf(p.solid), colour: colours.get(p.stock) ?? COLOURS.wood }))
        : [{ boxes: [piece.outside], colour: piece.kind === 'display' ? COLOURS.display : COLOURS.bought }];
    for (const { boxes, colour } of bodies) {
      const mesh = new Group();
      for (const box of boxes) mesh.add(...solid(box, face(colour), lines));
      const own = boxes[0] ? middleOf(boxes[0]) : middle;
      flying.push({ mesh, away: own.clone().sub(middle).multiplyScalar(AWAY) });
      whole.add(mesh);
    }
    group.add(whole);
    const side = piece.wall && sides.get(piece.wall.id);
    if (side && FLAT.has(piece.kind)) flat.push({ group: whole, face: side });
  }
  return { group, flying, flat };
}

/** Lets go of what the graphics processor keeps of it. */
export function dispose(group: Group): void {
  group.traverse((object) => {
    if (!(object instanceof Mesh || object instanceof LineSegments)) return;
    object.geometry.dispose();
    for (const material of [object.material].flat()) material.dispose();
  });
}

/** One face for each colour, and one line for all. */
function materials(ink: Color, plane: Plane) {
  const faces = new Map<string, MeshLambertMaterial>();
  const face = (colour: string): MeshLambertMaterial => {
    const known = faces.get(colour);
    if (known) return known;
    const made = new MeshLambertMaterial({
      color: new Color().setStyle(colour),
      clippingPlanes: [plane],
      // edges lie before their faces
      polygonOffset: true,
      polygonOffsetFactor: 1,
      polygonOffsetUnits: 1,
    });
    faces.set(colour, made);
    return made;
  };
  return { face, lines: new LineBasicMaterial({ color: ink, clippingPlanes: [plane] }) };
}

/** The turn of a frame as the picture has it: y up, against the clock seen from above. */
const turnOf = ({ turn }: Frame): number => (-turn * Math.PI) / 180;

function standing(frame: Frame): Group {
  const group = new Group();
  const { x, y, z } = frame.origin;
  group.position.set(x, y, z).multiplyScalar(METRES);
  group.rotation.y = turnOf(frame);
  return group;
}

const middleOf = ({ min, max }: Box): Vector3 =>
  new Vector3((min.x + max.x) / 2, (min.y + max.y) / 2, (min.z + max.z) / 2).multiplyScalar(METRES);

function solid(box: Box, face: MeshLambertMaterial, lines: LineBasicMaterial): readonly [Mesh, LineSegments] {
  const { min, max } = box;
  const geometry = new BoxGeometry((max.x - min.x) * METRES, (max.y - min.y) * METRES, (max.z - min.z) * METRES);
  const mesh = new Mesh(geometry, face);
  const edges = new LineSegments(new EdgesGeometry(geometry), lines);
  for (const object of [mesh, edges]) object.position.copy(middleOf(box));
  return [mesh, edges];
}
