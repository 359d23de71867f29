import { getBounds, WebIO } from '@gltf-transform/core';
import { describe, expect, it } from 'vitest';
import { EXAMPLES, exampleInput } from '../core/drawing/packet.testing.ts';
import { AXES, toRoom, vec } from '../core/geometry/index.ts';
import { toGltf } from './gltf.ts';

describe.each(EXAMPLES)('the set of %s as a GLB', (name) => {
  const input = exampleInput(name);

  it('reads back: a node for each piece, each part under its own, named, with its stock as material', async () => {
    const doc = await new WebIO().readBinary(await toGltf(input));
    const pieces = doc.getRoot().listScenes()[0]!.listChildren();
    expect(pieces.map((n) => n.getName())).toEqual(input.pieces.map((p) => p.title));
    input.pieces.forEach((piece, i) => {
      if (piece.parts.length === 0) return;
      const nodes = pieces[i]!.listChildren();
      expect(nodes.map((n) => n.getExtras().id)).toEqual(piece.parts.map((p) => p.id));
      expect(nodes.map((n) => n.getMesh()!.listPrimitives()[0]!.getMaterial()!.getName())).toEqual(
        piece.parts.map((p) => p.stock),
      );
    });
  });

  // Second route: the library's own bounds of the whole scene against the pieces' corners placed by our own frames.
  it('stands where the pieces stand, in metres', async () => {
    const doc = await new WebIO().readBinary(await toGltf(input));
    const bounds = getBounds(doc.getRoot().listScenes()[0]!);
    const corners = input.pieces.flatMap((piece) => {
      const boxes = piece.parts.length > 0 ? piece.parts.map((p) => p.solid.box) : [piece.outside];
      return boxes.flatMap(({ min, max }) =>
        [min.x, max.x].flatMap((x) =>
          [min.y, max.y].flatMap((y) => [min.z, max.z].map((z) => toRoom(piece.frame, vec(x, y, z)))),
        ),
      );
    });
    AXES.forEach((axis, i) => {
      expect(bounds.min[i]!).toBeCloseTo(Math.min(...corners.map((c) => c[axis])) / 1000, 4);
      expect(bounds.max[i]!).toBeCloseTo(Math.max(...corners.map((c) => c[axis])) / 1000, 4);
    });
  });

  it('has every face looking outwards', async () => {
    const doc = await new WebIO().readBinary(await toGltf(input));
    for (const mesh of doc.getRoot().listMeshes()) {
      const primitive = mesh.listPrimitives()[0]!;
      const at = (i: number): number[] => primitive.getAttribute('POSITION')!.getElement(i, []);
      const normal = (i: number): number[] => primitive.getAttribute('NORMAL')!.getElement(i, []);
      const indices = primitive.getIndices()!.getArray()!;
      for (let k = 0; k < indices.length; k += 3) {
        const [a, b, c] = [at(indices[k]!), at(indices[k + 1]!), at(indices[k + 2]!)];
        const u = b.map((v, i) => v - a[i]!);
        const w = c.map((v, i) => v - a[i]!);
        const cross = [u[1]! * w[2]! - u[2]! * w[1]!, u[2]! * w[0]! - u[0]! * w[2]!, u[0]! * w[1]! - u[1]! * w[0]!];
        const n = normal(indices[k]!);
        if (!(cross[0]! * n[0]! + cross[1]! * n[1]! + cross[2]! * n[2]! > 0))
          expect.fail(`${mesh.getName()}: face ${k / 3}`);
      }
    }
  });

  it('says its colours in no more digits than every engine agrees on', async () => {
    const doc = await new WebIO().readBinary(await toGltf(input));
    const channels = doc
      .getRoot()
      .listMaterials()
      .flatMap((material) => material.getBaseColorFactor());
    expect(channels.length).toBeGreaterThan(4);
    expect(channels.filter((channel) => channel !== Number(channel.toFixed(6)))).toEqual([]);
  });

  it('is the same bytes every time', async () => expect(await toGltf(input)).toEqual(await toGltf(input)));
});
