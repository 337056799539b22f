interface ScriptPolicy {
  readonly createScriptURL: (address: string) => URL;
}

interface PolicyFactory {
  readonly createPolicy: (
    name: string,
    rules: { createScriptURL: (address: string) => string },
  ) => ScriptPolicy;
}

/** An address of the site's own, vouched for where the browser asks for it; no other address passes. */
function trusted(address: string): URL | string {
  const { trustedTypes } = window as unknown as { readonly trustedTypes?: PolicyFactory };
  const createScriptURL = (asked: string) => {
    if (asked !== address) throw new TypeError(`worker: wants ${address}, got ${asked}`);
    return asked;
  };
  return trustedTypes?.createPolicy('own-worker', { createScriptURL }).createScriptURL(address) ?? address;
}

/**
 * Starts a program beside the page, so that the page goes on answering.
 *
 * @param address - what `import … from './…?worker&url'` gives
 */
export const startWorker = (address: string): Worker => new Worker(trusted(address), { type: 'module' });
