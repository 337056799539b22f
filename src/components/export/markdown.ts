import { printedBoth } from '../../core/quantity/print.ts';
import type { Caution, Sheet } from '../../sheet/sheet.ts';
import { fullAddress } from '../address.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

/** Characters that Markdown would read as marks. */
const escaped = (text: string) => plain(text).replace(/([\\`*_[\]<>|#])/gu, '\\$1');

const bullets = (items: readonly string[]) => items.map((item) => `- ${escaped(item)}`).join('\n');

function cautionText({ signal, type, hazard, consequence, avoid }: Caution): string {
  return [`### ${signal} (${type}): ${escaped(hazard)}`, escaped(consequence), bullets(avoid)].join('\n\n');
}

function figureTable(sheet: Sheet): string {
  const rows = Object.values(sheet.figures).map(
    (figure) => `| ${escaped(figure.label)} | ${escaped(printedBoth(figure, sheet.shop.units))} |`,
  );
  return ['| Figure | Value (low to high) |', '| --- | --- |', ...rows].join('\n');
}

function answersText(sheet: Sheet): string {
  return sheet.answers
    .map(({ question, short, long }) =>
      [`### ${escaped(question)}`, ...[short, ...long].map(escaped)].join('\n\n'),
    )
    .join('\n\n');
}

function faultsText(sheet: Sheet): string {
  return sheet.faults
    .map(({ name, looks, causes }) =>
      [
        `### ${escaped(name)}`,
        escaped(looks),
        causes
          .map(({ cause, why, cure }, i) => `${i + 1}. ${escaped(`${cause}. ${why} ${cure}`)}`)
          .join('\n'),
      ].join('\n\n'),
    )
    .join('\n\n');
}

/** A sheet as plain Markdown: cautions first and in full, then figures, answers and faults. */
export function sheetMarkdown(sheet: Sheet): string {
  const { shop, mold, bait, revision, verdicts, plastisol } = sheet;
  return [
    `# ${escaped(sheet.title)}`,
    escaped(bait.summary),
    bullets([
      `Maker: ${shop.name}${shop.invented ? ' (shop, bait and mold are invented for a demonstration)' : ''}`,
      `Stock number ${mold.stock}, status ${mold.status}`,
      `${bait.name}, ${bait.family}, revision ${revision.id.toUpperCase()} of ${revision.date}`,
      `${mold.cavities.length} ${mold.cavities.length === 1 ? 'cavity' : 'cavities'}`,
      `Compound: ${plastisol.name}`,
    ]),
    `Sheet: <${fullAddress(`molds/${sheet.id}/`, shop.site)}>`,
    '## Cautions',
    ...sheet.cautions.map(cautionText),
    '## Verdicts',
    bullets([verdicts.cold.sentence, verdicts.injector.sentence, verdicts.float.sentence]),
    '## Figures',
    figureTable(sheet),
    '## Questions',
    answersText(sheet),
    '## Faults',
    faultsText(sheet),
    '',
  ].join('\n\n');
}
