import { join } from 'node:path';
import type { GoodReading } from '../io/catalogue.ts';
import { readMeshFile } from '../io/mesh-file.ts';
import { contentFolder } from '../io/settings.ts';
import { sheets, type Analysed } from '../sheet/analyse.ts';

/** Computes every sheet of a sound catalogue. */
export function analyse(reading: GoodReading, folder: string = contentFolder()): Promise<Analysed> {
  return sheets(reading.catalogue, (path, unit) => readMeshFile(join(folder, path), unit));
}
