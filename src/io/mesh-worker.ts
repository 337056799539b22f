import { parentPort } from 'node:worker_threads';
import type { MeshFault } from '../core/mesh/mesh.ts';
import { readMesh } from '../core/mesh/read-mesh.ts';
import type { MeshFormat } from '../core/mesh/read-mesh.ts';
import { isMeshFault } from '../core/mesh/result.ts';
import type { MeshUnit, ReadMesh } from '../core/mesh/result.ts';

/** A file to read. */
export interface MeshTask {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly format: MeshFormat;
  readonly unit: MeshUnit | undefined;
}

/** What came of it. */
export type MeshAnswer = ReadMesh | MeshFault;

parentPort?.once('message', (task: MeshTask) => {
  const answer: MeshAnswer = readMesh(task.bytes, task);
  const moved = isMeshFault(answer) ? [] : [answer.mesh.positions.buffer, answer.mesh.triangles.buffer];
  parentPort?.postMessage(answer, moved as ArrayBuffer[]);
});
