import { afterPaint } from './after-paint.ts';

/** Writes what is chosen in a form to the page's address, so that a link shows the same. */
function toAddress(form: HTMLFormElement): void {
  const address = new URL(location.href);
  for (const { name } of fieldsOf(form)) address.searchParams.delete(name);
  for (const [name, value] of new FormData(form))
    if (value !== '') address.searchParams.append(name, String(value));
  history.replaceState(null, '', address);
}

type Field = HTMLSelectElement | HTMLInputElement;

const fieldsOf = (form: HTMLFormElement) => [...form.querySelectorAll<Field>('select, input')];

function fromAddress(form: HTMLFormElement): void {
  const asked = new URLSearchParams(location.search);
  for (const field of fieldsOf(form)) {
    const values = asked.getAll(field.name).flatMap((value) => value.split(','));
    if (field instanceof HTMLInputElement) field.checked = values.includes(field.value);
    else if ([...field.options].some(({ value }) => value === values[0])) field.value = values[0] ?? '';
  }
}

const shown = (item: Element) => getComputedStyle(item).display !== 'none';

/**
 * A list that its form narrows and orders by style rules alone. With this script it also says how many are left, keeps
 * the choice in the address, and puts the items in the chosen order for those who hear or tab through them.
 */
class MoldBrowser extends HTMLElement {
  connectedCallback(): void {
    const form = this.querySelector('form');
    if (!form) return;
    fromAddress(form);
    const fold = form.closest('details');
    if (fold && [...new FormData(form).values()].some((value) => value !== '')) fold.open = true;
    // The styles show the choice by themselves; the rest can wait until they have.
    const changed = afterPaint(() => {
      toAddress(form);
      this.refresh(true);
    });
    form.addEventListener('change', changed);
    form.addEventListener('reset', () => setTimeout(changed));
    this.refresh(new URLSearchParams(location.search).size > 0);
  }

  private refresh(say: boolean): void {
    const list = this.querySelector('.molds');
    const status = this.querySelector('[role=status]');
    if (!list) return;
    const items = [...list.children];
    const place = new Map(items.map((item) => [item, Number(getComputedStyle(item).order)]));
    const ordered = [...place.values()].some((order) => order !== 0);
    const sorted = items.toSorted((a, b) =>
      ordered ? (place.get(a) ?? 0) - (place.get(b) ?? 0) : a.id < b.id ? -1 : 1,
    );
    if (sorted.some((item, i) => item !== items[i])) list.append(...sorted);
    const left = items.filter(shown).length;
    if (!status) return;
    status.textContent = say
      ? left === 0
        ? 'No mold matches. Choose less, or show all.'
        : `${left} of ${items.length} molds`
      : '';
  }
}

customElements.define('mold-browser', MoldBrowser);
