import { existsSync } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import { pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import { MESH_LIMITS, fileSizeFault } from '../core/mesh/limits.ts';
import type { MeshFault } from '../core/mesh/mesh.ts';
import { meshFormat, readMesh } from '../core/mesh/read-mesh.ts';
import { isMeshFault, meshFault } from '../core/mesh/result.ts';
import type { MeshUnit, ReadMesh } from '../core/mesh/result.ts';
import type { MeshAnswer, MeshTask } from './mesh-worker.ts';

/** What a mesh file may cost to read. */
export interface MeshFileLimits {
  /** Wall time in the worker [s]. */
  readonly seconds: number;
  /** JavaScript heap of the worker [MB]. */
  readonly heapMegabytes: number;
  /** Files below this size are read in this thread [bytes]. */
  readonly inlineBytes: number;
}

/**
 * Reads a mesh file into a solid in metres, or says in one sentence why not. Files from `limits.inlineBytes` on are read
 * in a worker that is stopped when it takes too long or too much memory.
 *
 * @param path - the file; its ending decides the format
 * @param unit - unit of its numbers; compulsory for STL and OBJ, may be left out for 3MF
 * @param limits - time, memory and size; `MESH_LIMITS` unless a test sets others
 */
export async function readMeshFile(
  path: string,
  unit?: MeshUnit,
  limits: MeshFileLimits = MESH_LIMITS,
): Promise<ReadMesh | MeshFault> {
  const named = meshFormat(path);
  if (isMeshFault(named)) return named;
  const content = await boundedContent(path);
  if (isMeshFault(content)) return content;
  const task: MeshTask = { bytes: content, format: named.format, unit };
  return content.length < limits.inlineBytes ? readMesh(task.bytes, task) : readInWorker(task, limits);
}

/** The bytes of a regular file within the size limit. */
async function boundedContent(path: string): Promise<Uint8Array<ArrayBuffer> | MeshFault> {
  try {
    const found = await stat(path);
    if (!found.isFile()) return meshFault('format', 'this is no regular file; give the path of a mesh file');
    if (found.size > MESH_LIMITS.bytes) return fileSizeFault(found.size);
    return new Uint8Array(await readFile(path));
  } catch (error) {
    const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    return meshFault(
      'format',
      missing ? 'there is no such file; check its path' : 'the file cannot be read; check its rights',
    );
  }
}

function readInWorker(task: MeshTask, limits: MeshFileLimits): Promise<ReadMesh | MeshFault> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(workerAddress(), {
      resourceLimits: { maxOldGenerationSizeMb: limits.heapMegabytes },
    });
    const settle = (result: ReadMesh | MeshFault): void => {
      clearTimeout(timer);
      resolve(result);
      void worker.terminate();
    };
    const timer = setTimeout(() => {
      settle(
        meshFault('limit', `the mesh took more than ${limits.seconds} s to read; export a coarser mesh`),
      );
    }, limits.seconds * 1000);
    worker.once('message', (answer: MeshAnswer) => settle(answer));
    worker.once('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'ERR_WORKER_OUT_OF_MEMORY') return settle(memoryFault(limits));
      clearTimeout(timer);
      return reject(error);
    });
    worker.postMessage(task, [task.bytes.buffer]);
  });
}

function memoryFault({ heapMegabytes }: MeshFileLimits): MeshFault {
  return meshFault('limit', `the mesh took more than ${heapMegabytes} MB to read; export a coarser mesh`);
}

/** Where the worker's source lies: beside this file, or in the project when this file was bundled elsewhere. */
function workerAddress(): URL {
  const beside = new URL('mesh-worker.ts', new URL('.', import.meta.url));
  return existsSync(beside) ? beside : new URL('src/io/mesh-worker.ts', pathToFileURL(`${process.cwd()}/`));
}
