import { SaxesParser } from 'saxes';
import type { MeshFault } from './mesh.ts';
import { isMeshFault, meshFault } from './result.ts';

/** What a reader of XML is told. */
export interface XmlHandler {
  /** Start of an element; a fault ends the reading. */
  open(name: string, attributes: Readonly<Record<string, string>>): MeshFault | undefined;
}

const CHUNK = 65536;

/**
 * Reads an XML document without document type, entities or outside references.
 *
 * @param bytes - UTF-8, or UTF-16 with a byte order mark
 * @param what - its name in messages
 * @param handler - is told of every element
 * @returns nothing, or one fault: the document's own, or what the handler found [-]
 *
 * Cost: linear in the document.
 * Source: W3C, Extensible Markup Language (XML) 1.0, 5th ed. (2008), through saxes.
 */
export function readXml(bytes: Uint8Array, what: string, handler: XmlHandler): MeshFault | undefined {
  const parser = new SaxesParser();
  let fault: MeshFault | undefined;
  const stop = (found: MeshFault | undefined): void => {
    fault ??= found;
  };
  parser.on('error', (error) => {
    const reason = error.message.replace(/^\d+:\d+: /u, '').replace(/\.$/u, '');
    stop(meshFault('format', `${what}, line ${parser.line}: ${reason}; export the file again`));
  });
  parser.on('doctype', () => {
    stop(
      meshFault(
        'format',
        `${what} has a document type (DOCTYPE), which 3MF does not allow; export the file again`,
      ),
    );
  });
  parser.on('opentag', ({ name, attributes }) => {
    if (!fault) stop(handler.open(name, attributes));
  });
  const text = decoded(bytes, what);
  if (isMeshFault(text)) return text;
  for (let at = 0; at < text.value.length && !fault; at += CHUNK)
    parser.write(text.value.slice(at, at + CHUNK));
  if (!fault) parser.close();
  return fault;
}

function decoded(bytes: Uint8Array, what: string): { value: string } | MeshFault {
  const label =
    bytes[0] === 0xff && bytes[1] === 0xfe
      ? 'utf-16le'
      : bytes[0] === 0xfe && bytes[1] === 0xff
        ? 'utf-16be'
        : 'utf-8';
  try {
    return { value: new TextDecoder(label, { fatal: true }).decode(bytes) };
  } catch {
    return meshFault('format', `${what} is not text in ${label.toUpperCase()}; export the file again`);
  }
}
