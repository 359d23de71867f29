import {
  AmbientLight,
  Color,
  DirectionalLight,
  Group,
  PerspectiveCamera,
  Plane,
  Scene,
  Vector3,
  WebGLRenderer,
} from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { Framed } from '../core/camera/index.ts';
import type { Outcome } from '../core/outcome.ts';
import { type BuiltSet, builtSet, dispose } from './round-set.ts';
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
  let set: BuiltSet = { group: new Group(), flying: [], flat: [] };
  let now: Outcome | undefined;
  let apart = 0;
  let cut = 0;
  let cutFrom: From = 'front';
  /** The camera looked through, if any: the frame it must hold follows the window. */
  let lens: Framed | undefined;

  const draw = () => {
    for (const { group, face } of set.flat) group.visible = face.distanceToPoint(camera.position) > 0;
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
    scene.remove(set.group);
    dispose(set.group);
    set = builtSet(outcome, paint(), plane);
    scene.add(set.group);
    pullApart(apart);
    if (first) look('corner');
    else section(cut, cutFrom);
  }

  function pullApart(share: number): void {
    apart = share;
    for (const { mesh, away } of set.flying) mesh.position.copy(away).multiplyScalar(share);
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
      dispose(set.group);
      renderer.dispose();
      renderer.domElement.remove();
    },
  };
}

/** Angle of view of a standpoint of our own, degrees from top to bottom. */
const FIELD = 45;
/** The angle from top to bottom at which a picture is whole in a window of this shape. */
function fieldOf({ camera: { width, height, focal } }: Framed, aspect: number): number {
  return (Math.atan(Math.max(height, width / aspect) / 2 / focal) * 360) / Math.PI;
}
