import {
  AmbientLight,
  BoxGeometry,
  Color,
  DirectionalLight,
  EdgesGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshLambertMaterial,
  PerspectiveCamera,
  Plane,
  PlaneGeometry,
  Scene,
  Shape,
  ShapeGeometry,
  Vector2,
  Vector3,
  WebGLRenderer,
} from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { Framed } from '../core/camera/index.ts';
import { boxesOf } from '../core/drawing/index.ts';
import { type Box, vec } from '../core/geometry/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { type From, METRES, type Standpoint, sectionOf, standAt } from './round-stand.ts';

export interface Round {
  readonly show: (outcome: Outcome) => void;
  readonly pullApart: (share: number) => void;
  readonly section: (share: number, from: From) => void;
  readonly look: (from: Standpoint) => void;
  /** Looks through a camera of the plan: its picture fills the view as far as it goes. */
  readonly through: (framed: Framed) => void;
  readonly end: () => void;
}

/** How far an opening stands out of its wall so that it shows, mm. */
const OPENING = 6;

export function startRound(host: HTMLElement): Round {
  const renderer = new WebGLRenderer({ antialias: true });
  renderer.setPixelRatio(Math.min(2, devicePixelRatio));
  renderer.localClippingEnabled = true;
  host.append(renderer.domElement);
  const scene = new Scene();
  const camera = new PerspectiveCamera(FIELD, 1, 0.05, 100);
  const controls = new OrbitControls(camera, renderer.domElement);
  controls.listenToKeyEvents(host);
  const light = new DirectionalLight('#ffffff', 2);
  scene.add(new AmbientLight('#ffffff', 1.6), light);
  const plane = new Plane(new Vector3(0, 0, -1), 100);
  let set = new Group();
  let flying: { readonly mesh: Group; readonly home: Vector3; readonly away: Vector3 }[] = [];
  let now: Outcome | undefined;
  let apart = 0;
  let cut = 0;
  let cutFrom: From = 'front';
  /** The camera looked through, if any: the frame it must hold follows the window. */
  let lens: Framed | undefined;

  /** What lies flat on a wall, and that wall's face: it is left out with the wall one looks through. */
  let flat: { readonly group: Group; readonly face: Plane }[] = [];

  const draw = () => {
    for (const { group, face } of flat) group.visible = face.distanceToPoint(camera.position) > 0;
    renderer.render(scene, camera);
  };
  const fit = () => {
    const { clientWidth: width, clientHeight: height } = host;
    if (width === 0 || height === 0) return;
    renderer.setSize(width, height, false);
    camera.aspect = width / height;
    camera.fov = lens ? fieldOf(lens, camera.aspect) : FIELD;
    camera.updateProjectionMatrix();
    draw();
  };
  const watch = new ResizeObserver(fit);
  watch.observe(host);
  controls.addEventListener('change', draw);

  const paint = () => {
    const style = getComputedStyle(host);
    scene.background = new Color(style.getPropertyValue('--sheet-paper').trim() || '#ffffff');
    return new Color(style.getPropertyValue('--sheet-ink').trim() || '#000000');
  };

  function show(outcome: Outcome): void {
    const first = now === undefined;
    now = outcome;
    scene.remove(set);
    dispose(set);
    set = new Group();
    flying = [];
    flat = [];
    const sides = new Map<string, Plane>();
    const ink = paint();
    const lines = new LineBasicMaterial({ color: ink, clippingPlanes: [plane] });
    const faces = new Map<string, MeshLambertMaterial>();
    const faceOf = (colour: string): MeshLambertMaterial => {
      const known = faces.get(colour);
      if (known) return known;
      const made = new MeshLambertMaterial({
        color: new Color().setStyle(colour),
        clippingPlanes: [plane],
        polygonOffset: true,
        polygonOffsetFactor: 1,
        polygonOffsetUnits: 1,
      });
      faces.set(colour, made);
      return made;
    };
    const colours = new Map([...outcome.plan.stock.panels, ...outcome.plan.stock.boards].map((s) => [s.id, s.colour]));
    for (const wall of outcome.room.walls) {
      const mesh = new Mesh(
        new PlaneGeometry(wall.length * METRES, wall.height * METRES),
        // seen from inside only: the wall one looks through is left out
        new MeshLambertMaterial({ color: '#d8d2c4', clippingPlanes: [plane] }),
      );
      const turn = (-wall.frame.turn * Math.PI) / 180;
      const along = new Vector3(Math.cos(turn), 0, -Math.sin(turn));
      const { x, y, z } = wall.frame.origin;
      mesh.position
        .set(x * METRES, (y + wall.height / 2) * METRES, z * METRES)
        .addScaledVector(along, (wall.length / 2) * METRES);
      mesh.rotation.y = turn;
      set.add(mesh);
      const inwards = new Vector3(Math.sin(turn), 0, Math.cos(turn));
      sides.set(wall.id, new Plane().setFromNormalAndCoplanarPoint(inwards, mesh.position));
    }
    const floor = new Shape(outcome.room.outline.map((p) => new Vector2(p.x * METRES, -p.z * METRES)));
    const ground = new Mesh(
      new ShapeGeometry(floor),
      new MeshLambertMaterial({ color: '#bfb49d', clippingPlanes: [plane] }),
    );
    ground.rotation.x = -Math.PI / 2;
    set.add(ground);
    for (const { wall: id, x, y } of outcome.room.openings) {
      const wall = outcome.room.walls.find((w) => w.id === id);
      if (!wall) continue;
      const hole = solid({ min: vec(x[0], y[0], 0), max: vec(x[1], y[1], OPENING) }, faceOf('#f4f6f7'), lines);
      const on = new Group();
      on.position.set(wall.frame.origin.x * METRES, wall.frame.origin.y * METRES, wall.frame.origin.z * METRES);
      on.rotation.y = (-wall.frame.turn * Math.PI) / 180;
      on.add(...hole);
      set.add(on);
      flat.push({ group: on, face: sides.get(id)! });
    }
    for (const piece of outcome.pieces) {
      const group = new Group();
      const { origin, turn } = piece.frame;
      group.position.set(origin.x * METRES, origin.y * METRES, origin.z * METRES);
      group.rotation.y = (-turn * Math.PI) / 180;
      const middle = middleOf(piece.outside);
      const parts =
        piece.parts.length > 0
          ? piece.parts.map((p) => ({ boxes: boxesOf(p.solid), colour: colours.get(p.stock) ?? '#cdb892' }))
          : [{ boxes: [piece.outside], colour: piece.kind === 'display' ? '#2b2d30' : '#8d8478' }];
      for (const { boxes, colour } of parts) {
        const part = new Group();
        for (const box of boxes) part.add(...solid(box, faceOf(colour), lines));
        const own = boxes[0] ? middleOf(boxes[0]) : middle;
        flying.push({ mesh: part, home: new Vector3(), away: own.clone().sub(middle).multiplyScalar(0.9) });
        group.add(part);
      }
      set.add(group);
      const face = piece.wall && sides.get(piece.wall.id);
      if (face && FLAT.has(piece.kind)) flat.push({ group, face });
    }
    scene.add(set);
    pullApart(apart);
    if (first) look('corner');
    else section(cut, cutFrom);
  }

  function pullApart(share: number): void {
    apart = share;
    for (const { mesh, away } of flying) mesh.position.copy(away).multiplyScalar(share);
    draw();
  }

  /** Takes a share of the room away, from one side. */
  function section(share: number, from: From): void {
    [cut, cutFrom] = [share, from];
    if (!now) return;
    const { normal, constant } = sectionOf(now, share, from);
    plane.normal.set(...normal);
    plane.constant = constant;
    draw();
  }

  function through(framed: Framed): void {
    lens = framed;
    const { at, towards } = framed.camera;
    camera.position.set(at.x * METRES, at.y * METRES, at.z * METRES);
    controls.target.set(towards.x * METRES, towards.y * METRES, towards.z * METRES);
    controls.update();
    fit();
  }

  function look(from: Standpoint): void {
    lens = undefined;
    fit();
    if (!now) return;
    const { at, towards, light: sun } = standAt(now, from);
    camera.position.set(...at);
    controls.target.set(...towards);
    light.position.set(...sun);
    controls.update();
    draw();
  }

  fit();
  return {
    show,
    pullApart,
    section,
    look,
    through,
    end() {
      watch.disconnect();
      controls.dispose();
      dispose(set);
      renderer.dispose();
      renderer.domElement.remove();
    },
  };
}

/** Kinds that lie flat on their wall and would hang in the air before the room without it. */
const FLAT: ReadonlySet<string> = new Set(['lining', 'trim', 'absorber']);

/** Angle of view of a standpoint of our own, degrees from top to bottom. */
const FIELD = 45;
/** The angle from top to bottom at which a picture is whole in a window of this shape. */
function fieldOf({ camera: { width, height, focal } }: Framed, aspect: number): number {
  return (Math.atan(Math.max(height, width / aspect) / 2 / focal) * 360) / Math.PI;
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

function dispose(group: Group): void {
  group.traverse((object) => {
    if (!(object instanceof Mesh || object instanceof LineSegments)) return;
    object.geometry.dispose();
    for (const material of [object.material].flat()) material.dispose();
  });
}
