/** Who may be asked for what; everything that is not named is refused. */
const SOURCES = {
  'default-src': "'none'",
  'script-src': "'self'",
  'style-src': "'self'",
  'img-src': "'self'",
  'font-src': "'self'",
  'connect-src': "'self'",
  'manifest-src': "'self'",
  'object-src': "'none'",
  'base-uri': "'none'",
  'form-action': "'self'",
  'frame-ancestors': "'none'",
  'require-trusted-types-for': "'script'",
} as const;

/** What a policy in the page itself cannot say. */
const ONLY_IN_HEADERS: ReadonlySet<string> = new Set(['frame-ancestors']);

/** Powers of a browser that no page of the site uses. */
const UNUSED = [
  'accelerometer',
  'camera',
  'display-capture',
  'geolocation',
  'gyroscope',
  'magnetometer',
  'microphone',
  'midi',
  'payment',
  'publickey-credentials-get',
  'usb',
];

function policy(parts: readonly (readonly [name: string, value: string])[]): string {
  return parts.map(([name, value]) => `${name} ${value}`).join('; ');
}

/** All directives, with the style sheets that stand in pages and drawings themselves. */
function directives(styleHashes: readonly string[]): [name: string, value: string][] {
  const styles = [SOURCES['style-src'], ...styleHashes.map((hash) => `'${hash}'`)].join(' ');
  return Object.entries({ ...SOURCES, 'style-src': styles });
}

/**
 * The policy as it stands in every page, for hosts that send no headers; it lacks what only a header can say.
 *
 * @param styleHashes - of the style sheets inside the page, like `sha256-…`
 */
export function metaPolicy(styleHashes: readonly string[]): string {
  return policy(directives(styleHashes).filter(([name]) => !ONLY_IN_HEADERS.has(name)));
}

/**
 * The headers that every answer of the site carries.
 *
 * @param styleHashes - of the style sheets inside pages and drawings, like `sha256-…`: a drawing opened by itself keeps
 * its lines
 */
export function siteHeaders(styleHashes: readonly string[]): [name: string, value: string][] {
  return [
    ['Content-Security-Policy', policy(directives(styleHashes))],
    ['X-Content-Type-Options', 'nosniff'],
    ['Referrer-Policy', 'strict-origin-when-cross-origin'],
    ['Permissions-Policy', UNUSED.map((power) => `${power}=()`).join(', ')],
    ['Cross-Origin-Opener-Policy', 'same-origin'],
    ['Cross-Origin-Resource-Policy', 'same-origin'],
    ['Strict-Transport-Security', 'max-age=31536000'],
  ];
}

/** Files whose names change with their content: kept by browsers for a year. */
const LASTING: [name: string, value: string] = ['Cache-Control', 'public, max-age=31536000, immutable'];

/** Where those files lie below the host. */
const lastingPath = (base: string): string => `${base.replace(/\/+$/u, '')}/_astro/`;

/** The headers as a `_headers` file, which several static hosts read. */
export function headersFile(styleHashes: readonly string[], base: string): string {
  const lines = siteHeaders(styleHashes).map(([name, value]) => `  ${name}: ${value}`);
  return `/*\n${lines.join('\n')}\n\n${lastingPath(base)}*\n  ${LASTING.join(': ')}\n`;
}

/** The headers as lines to include in a `server` of nginx. */
export function nginxSnippet(styleHashes: readonly string[], base: string): string {
  const lines = siteHeaders(styleHashes).map(([name, value]) => `add_header ${name} "${value}" always;`);
  return [
    '# Include this in the server block of the site.',
    ...lines,
    `location ${lastingPath(base)} {`,
    ...[...lines, `add_header ${LASTING[0]} "${LASTING[1]}";`].map((line) => `  ${line}`),
    '}',
    '',
  ].join('\n');
}
