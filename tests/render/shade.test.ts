import { createHash } from 'node:crypto';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { onGround } from '../../src/render/camera.ts';
import { plasticOf } from '../../src/render/colours.ts';
import { shadeFile } from '../../src/render/encode.ts';
import type { Raster } from '../../src/render/exposure.ts';
import { lightsFor, openLight } from '../../src/render/lights.ts';
import { rendered } from '../../src/render/render.ts';
import { partOf, type Scene } from '../../src/render/scene.ts';
import { lightUp, unlit } from '../../src/render/shading.ts';
import { baitScene, moldScene } from '../../src/render/subjects.ts';
import { smoothStep } from '../../src/render/surroundings.ts';
import { box, capsule } from '../support/solids.ts';

const size = { width: 810, height: 540 };
const scenes = {
  bait: baitScene(partOf(capsule(0.006, 0.04, 24, 48), plasticOf('amber')), size),
  mold: moldScene(box([0.1, 0.06, 0.02], [0, 0, -0.02]), size),
};

/** How dark each pixel of a small picture is, 0 to 1. */
const alphas = ({ data }: Raster) =>
  Float64Array.from({ length: data.length / 4 }, (_, i) => data[4 * i + 3]! / 255);

/** Between the middles of the pixels of a row or column: the two around a place, and the share of the second. */
function around(place: number, length: number): readonly [number, number, number] {
  const held = Math.min(length - 1, Math.max(0, place));
  const first = Math.min(length - 2, Math.floor(held));
  return [first, first + 1, held - first];
}

/** A shade as a browser stretches it over the picture, shifted by some pixels of the picture. */
function stretched(shade: Raster, shift: readonly [number, number] = [0, 0]): Float64Array {
  const dark = alphas(shade);
  const at = (column: number, row: number) => dark[row * shade.width + column]!;
  return Float64Array.from({ length: size.width * size.height }, (_, i) => {
    const [x, y] = [(i % size.width) + shift[0], Math.floor(i / size.width) + shift[1]];
    const [a, b, s] = around(((x + 0.5) * shade.width) / size.width - 0.5, shade.width);
    const [c, d, t] = around(((y + 0.5) * shade.height) / size.height - 0.5, shade.height);
    return (at(a, c) * (1 - s) + at(b, c) * s) * (1 - t) + (at(a, d) * (1 - s) + at(b, d) * s) * t;
  });
}

/** Means over squares about each pixel. */
function softened(values: Float64Array, reach: number): Float64Array {
  const along = (from: Float64Array, step: number, length: number) =>
    from.map((_, i) => {
      const place = Math.floor(i / step) % length;
      let [sum, count] = [0, 0];
      for (let k = -Math.min(reach, place); k <= Math.min(reach, length - 1 - place); k++, count++)
        sum += from[i + k * step]!;
      return sum / count;
    });
  return along(along(values, 1, size.width), size.width, size.height);
}

/** The shadow worked out at every pixel by itself, 0 to 1: its look, without a grid. */
function reference({ parts, camera, ground }: Scene): Float64Array {
  const { width, height } = size;
  const count = width * height;
  const lights = lightsFor(camera);
  const position = new Float32Array(3 * count);
  const normal = new Float32Array(3 * count);
  for (let i = 0; i < count; i++) {
    position.set(onGround(camera, (i % width) + 0.5, Math.floor(i / width) + 0.5, ground), 3 * i);
    normal[3 * i + 2] = 1;
  }
  const lit = unlit({ count, position, normal });
  lightUp(parts, lights, [{ lit, reach: 0 }]);
  const arrived = Float64Array.from(lit.sky, (sky, i) => (sky + lit.key[i]!) / openLight(lights));
  const fade = (place: number, length: number) =>
    smoothStep(0, 0.1 * height, Math.min(place, length - 1 - place));
  return softened(softened(arrived, 15), 15).map((left, i) => {
    const [x, y] = [i % width, Math.floor(i / width)];
    return fade(x, width) * fade(y, height) * Math.max(0, (0.9 * (0.94 - left)) / 0.94);
  });
}

/** Mean difference of two pictures on white paper where the ground is seen, in levels of a byte. */
function apart(shown: Raster, one: Float64Array, other: Float64Array): number {
  const cover = alphas(shown);
  let [sum, count] = [0, 0];
  for (let i = 0; i < cover.length; i++) {
    if (cover[i] === 1 || (one[i] === 0 && other[i] === 0)) continue;
    sum += 255 * (1 - cover[i]!) * Math.abs(one[i]! - other[i]!);
    count++;
  }
  return sum / count;
}

describe.each(Object.entries(scenes))('the shade of a %s', (_, scene) => {
  const { shown, shade } = rendered(scene);
  const exact = reference(scene);
  const near = apart(shown, stretched(shade), exact);

  test('stretched and laid under the picture is the shadow worked out pixel by pixel', () => {
    expect(near).toBeLessThan(1.5);
  });

  test.each([
    [-5, 0],
    [5, 0],
    [0, -5],
    [0, 5],
  ] as const)('lies where it belongs: half of its own pixel further, %i and %i, it fits worse', (x, y) => {
    expect(apart(shown, stretched(shade, [x, y]), exact)).toBeGreaterThan(2 * near);
  });

  test('is smooth: an edge of light is spread over five of its pixels', () => {
    const dark = alphas(shade);
    const { width } = shade;
    let steepest = 0;
    for (let i = width; i < dark.length; i++) {
      const aside = i % width > 0 ? Math.abs(dark[i]! - dark[i - 1]!) : 0;
      steepest = Math.max(steepest, aside, Math.abs(dark[i]! - dark[i - width]!));
    }
    expect(steepest).toBeGreaterThan(0);
    // Two means of three in a row: a step becomes 1, 2, 3, 2, 1 ninths.
    expect(steepest).toBeLessThanOrEqual(3 / 9);
  });

  test('ends before the frame', () => {
    const dark = alphas(shade);
    const { width, height } = shade;
    const frame = [...dark].filter((__, i) => {
      const [x, y] = [i % width, Math.floor(i / width)];
      return x === 0 || y === 0 || x === width - 1 || y === height - 1;
    });
    expect(Math.max(...frame)).toBe(0);
  });

  test('runs on under what stands on it', () => {
    const dark = stretched(shade);
    const cover = alphas(shown);
    const mean = (part: Float64Array) => part.reduce((sum, value) => sum + value, 0) / part.length;
    const under = dark.filter((__, i) => cover[i] === 1);
    const beside = dark.filter((value, i) => cover[i] === 0 && value > 0);
    expect(mean(under)).toBeGreaterThan(mean(beside));
  });

  test('keeps every level of its alpha in a file of at most 3 kB', async () => {
    const { data, width, height } = await shadeFile(shade);
    expect([width, height]).toEqual([81, 54]);
    expect(data.length).toBeLessThan(3 * 1024);
    const { data: back } = await sharp(data).raw().toBuffer({ resolveWithObject: true });
    expect(alphas({ ...shade, data: back })).toEqual(alphas(shade));
  });
});

test('the same scene gives the same bytes', async () => {
  const hash = async () => {
    const { shown, shade } = rendered(scenes.bait);
    const { data } = await shadeFile(shade);
    return createHash('sha256').update(shown.data).update(shade.data).update(data).digest('hex');
  };
  expect(await hash()).toBe(await hash());
});

test('light through plastic gives the shadow its colour', () => {
  const { data } = rendered(scenes.bait).shade;
  const sums = [0, 0, 0];
  data.forEach((value, i) => i % 4 < 3 && (sums[i % 4]! += (value * data[i - (i % 4) + 3]!) / 255));
  expect(sums[0]).toBeGreaterThan(1.1 * sums[2]!);
});
