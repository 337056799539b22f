import { readYaml, type ReadSource } from './yaml-source.ts';

const FENCED = /^---[ \t]*\r?\n([\s\S]*?)^---[ \t]*$/mu;

/** Reads the YAML between the two `---` lines at the top of a guide; lines are counted in the whole file. */
export function readFrontMatter(file: string, text: string): ReadSource {
  const match = FENCED.exec(text);
  if (match?.index !== 0) {
    const remedy = 'start the file with a line "---", then title, summary and order, then another "---"';
    return { problems: [{ file, line: 1, column: 1, message: 'the front matter is missing', remedy }] };
  }
  return readYaml(file, `\n${match[1] ?? ''}`);
}
