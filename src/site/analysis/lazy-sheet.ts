import type { Store } from '../../io/cache.ts';
import type { Sheet } from '../../sheet/sheet.ts';
import type { Group } from './groups.ts';
import { addressed, keptSheet, sheetAddress } from './work.ts';

/** Sheets that are held though nobody may need them any more. */
const HELD = 4;

const recent: Sheet[] = [];

/**
 * A sheet that is read from the store when someone looks into it, and let go of when memory is short, so that a
 * thousand of them weigh next to nothing.
 *
 * @throws {RangeError} on looking into it, when the store has lost it
 */
export function lazySheet(store: Store, group: Pick<Group, 'address'>, id: string): Sheet {
  let held: WeakRef<Sheet> | undefined;
  const sheet = (): Sheet => {
    const known = held?.deref();
    if (known) return known;
    const read = keptSheet(store, group, id);
    if (!read) throw new RangeError(`lazySheet: wants the sheet of ${id} in the cache, got none`);
    held = new WeakRef(read);
    recent.push(read);
    if (recent.length > HELD) recent.shift();
    return read;
  };
  const proxy = new Proxy({ id } as Sheet, {
    get: (eager, key) => (key === 'id' ? eager.id : (Reflect.get(sheet(), key) as unknown)),
    has: (_, key) => Reflect.has(sheet(), key),
    ownKeys: () => Reflect.ownKeys(sheet()),
    getOwnPropertyDescriptor: (_, key) => {
      const found = Reflect.getOwnPropertyDescriptor(sheet(), key);
      return found && { ...found, configurable: true };
    },
  });
  return addressed(proxy, sheetAddress(group, id));
}
