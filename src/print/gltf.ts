import { Document, type Material, WebIO } from '@gltf-transform/core';
import { boxesOf, type PacketInput } from '../core/drawing/index.ts';
import type { Box } from '../core/geometry/index.ts';
import { parseHex, srgbToLinear } from '../core/light/index.ts';

const METRES = 1 / 1000;

/**
 * The set as a GLB (glTF 2.0, binary): a node for each piece, a node for each part under it, both named; a material for each stock.
 * Metres, y up, right-handed, as glTF has it. Square machining is cut out of the boxes; round holes are left in.
 */
export function toGltf({ plan, option, pieces }: Pick<PacketInput, 'plan' | 'option' | 'pieces'>): Promise<Uint8Array> {
  const doc = new Document();
  doc.getRoot().getAsset().generator = 'Setwright';
  const buffer = doc.createBuffer();
  const scene = doc.createScene(`${plan.title}: ${option.title ?? option.id}`);
  doc.getRoot().setDefaultScene(scene);
  const materials = new Map<string, Material>();
  const materialOf = (stock: string): Material => {
    const known = materials.get(stock);
    if (known) return known;
    const colour = [...plan.stock.panels, ...plan.stock.boards].find((s) => s.id === stock)?.colour;
    const made = doc
      .createMaterial(stock)
      .setBaseColorFactor(linear(colour))
      .setMetallicFactor(0)
      .setRoughnessFactor(0.7);
    materials.set(stock, made);
    return made;
  };
  for (const piece of pieces) {
    const { origin, turn } = piece.frame;
    // Turned clockwise seen from above: about −y.
    const half = (-turn * Math.PI) / 360;
    const node = doc
      .createNode(piece.title)
      .setTranslation([origin.x * METRES, origin.y * METRES, origin.z * METRES])
      .setRotation([0, Math.sin(half), 0, Math.cos(half)])
      .setExtras({ id: piece.id, kind: piece.kind });
    scene.addChild(node);
    const solids =
      piece.parts.length > 0
        ? piece.parts.map((p) => ({ name: p.label.name, id: p.id, stock: p.stock, boxes: boxesOf(p.solid) }))
        : [{ name: piece.title, id: piece.id, stock: piece.kind, boxes: [piece.outside] }];
    for (const { name, id, stock, boxes } of solids) {
      if (boxes.length === 0) continue;
      const { positions, normals, indices } = triangles(boxes);
      const primitive = doc
        .createPrimitive()
        .setAttribute('POSITION', doc.createAccessor().setType('VEC3').setArray(positions).setBuffer(buffer))
        .setAttribute('NORMAL', doc.createAccessor().setType('VEC3').setArray(normals).setBuffer(buffer))
        .setIndices(doc.createAccessor().setType('SCALAR').setArray(indices).setBuffer(buffer))
        .setMaterial(materialOf(stock));
      const mesh = doc.createMesh(name).addPrimitive(primitive);
      node.addChild(doc.createNode(name).setMesh(mesh).setExtras({ id }));
    }
  }
  return new WebIO().writeBinary(doc);
}

const FACES = [
  {
    n: [1, 0, 0],
    c: [
      [1, 0, 1],
      [1, 0, 0],
      [1, 1, 0],
      [1, 1, 1],
    ],
  },
  {
    n: [-1, 0, 0],
    c: [
      [0, 0, 0],
      [0, 0, 1],
      [0, 1, 1],
      [0, 1, 0],
    ],
  },
  {
    n: [0, 1, 0],
    c: [
      [0, 1, 1],
      [1, 1, 1],
      [1, 1, 0],
      [0, 1, 0],
    ],
  },
  {
    n: [0, -1, 0],
    c: [
      [0, 0, 0],
      [1, 0, 0],
      [1, 0, 1],
      [0, 0, 1],
    ],
  },
  {
    n: [0, 0, 1],
    c: [
      [0, 0, 1],
      [1, 0, 1],
      [1, 1, 1],
      [0, 1, 1],
    ],
  },
  {
    n: [0, 0, -1],
    c: [
      [1, 0, 0],
      [0, 0, 0],
      [0, 1, 0],
      [1, 1, 0],
    ],
  },
] as const;

/** Four corners and two triangles a face, wound counter-clockwise seen from outside. */
function triangles(boxes: readonly Box[]): {
  positions: Float32Array<ArrayBuffer>;
  normals: Float32Array<ArrayBuffer>;
  indices: Uint32Array<ArrayBuffer>;
} {
  const positions: number[] = [];
  const normals: number[] = [];
  const indices: number[] = [];
  for (const { min, max } of boxes)
    for (const { n, c } of FACES) {
      const first = positions.length / 3;
      for (const [x, y, z] of c) {
        positions.push((x ? max : min).x * METRES, (y ? max : min).y * METRES, (z ? max : min).z * METRES);
        normals.push(...n);
      }
      indices.push(first, first + 1, first + 2, first, first + 2, first + 3);
    }
  return {
    positions: new Float32Array(positions),
    normals: new Float32Array(normals),
    indices: new Uint32Array(indices),
  };
}

/** Past what an eye or a viewer tells apart, and short of the digits in which engines differ. */
const DIGITS = 6;
/** `#rrggbb` as linear light: glTF base colours are linear. */
function linear(colour: string | undefined): [number, number, number, number] {
  const [r, g, b] = parseHex(colour ?? UNTOLD).map((c) => Number(srgbToLinear(c).toFixed(DIGITS)));
  return [r!, g!, b!, 1];
}
/** Of what has no colour of its own: wood. */
const UNTOLD = '#c8b48c';
