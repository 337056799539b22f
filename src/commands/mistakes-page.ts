import { frameLines, type FramedProblem } from '../io/code-frame.ts';
import { counted } from './progress.ts';
import { plainText } from '../io/problem-text.ts';

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

const escaped = (text: string): string => text.replace(/[&<>"']/gu, (sign) => ENTITIES[sign] ?? '');

/** The page that a preview shows instead of the site while the catalogue has mistakes; it looks again by itself. */
export function mistakesPage(problems: readonly FramedProblem[]): string {
  const items = problems.map((problem) => {
    const { file, line, column, message, remedy } = problem;
    const frame = frameLines(problem).map(escaped).join('\n');
    return `<li>
<h2>${escaped(`${plainText(file)}:${line}:${column}`)}</h2>
<p>${escaped(plainText(message))}</p>
<p><strong>What to do:</strong> ${escaped(plainText(remedy))}</p>
${frame && `<pre>${frame}</pre>\n`}</li>`;
  });
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="refresh" content="2">
<title>${counted(problems.length, 'mistake')} in the catalogue</title>
<style>
body { font: 1rem/1.5 system-ui, sans-serif; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; color-scheme: light dark }
h2 { font-size: 1rem; margin: 0 }
p { margin: 0 }
li { margin-block: 1.5rem }
pre { overflow-x: auto; padding: .5rem; border: 1px solid }
</style>
</head>
<body>
<h1>${counted(problems.length, 'mistake')} in the catalogue</h1>
<p>This page gives way to the site when the files are mended.</p>
<ol>
${items.join('\n')}
</ol>
</body>
</html>
`;
}
