import type { HookFit, Sheet } from '../../sheet/sheet.ts';

/** The hooks of one rig: those that fit, and in a line each the sizes of a pattern that do not. */
export interface RigHooks {
  readonly rig: string;
  readonly usable: readonly HookFit[];
  readonly misfits: readonly {
    readonly name: string;
    readonly tooSmall: string;
    readonly tooLarge: string;
  }[];
}

const USABLE: ReadonlySet<HookFit['verdict']> = new Set(['best', 'fits', 'tight']);

const sizes = (fits: readonly HookFit[], verdict: HookFit['verdict']) =>
  fits
    .filter((fit) => fit.verdict === verdict)
    .map(({ size }) => size)
    .join(', ');

function misfitsOf(fits: readonly HookFit[]): RigHooks['misfits'] {
  const names = [...new Set(fits.map(({ hook }) => hook.name))];
  return names
    .map((name) => {
      const same = fits.filter(({ hook }) => hook.name === name);
      return { name, tooSmall: sizes(same, 'too small'), tooLarge: sizes(same, 'too large') };
    })
    .filter(({ tooSmall, tooLarge }) => tooSmall !== '' || tooLarge !== '');
}

/** The hooks of a sheet by rig, rigs in the sheet's own order. */
export function hooksByRig({ hooks }: Pick<Sheet, 'hooks'>): RigHooks[] {
  const rigs = [...new Set(hooks.map(({ rig }) => rig))];
  return rigs.map((rig) => {
    const fits = hooks.filter((fit) => fit.rig === rig);
    return { rig, usable: fits.filter(({ verdict }) => USABLE.has(verdict)), misfits: misfitsOf(fits) };
  });
}
