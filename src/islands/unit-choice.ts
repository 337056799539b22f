type Units = 'us' | 'metric';

const KEY = 'partline-units';

const isUnits = (text: string | null): text is Units => text === 'us' || text === 'metric';

/** The reader's last choice; storage can be closed to a page, and then there is none. */
function remembered(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}

function remember(units: Units): void {
  try {
    localStorage.setItem(KEY, units);
  } catch {
    return;
  }
}

function writeToAddress(units: Units): void {
  const address = new URL(location.href);
  address.searchParams.set('u', units);
  history.replaceState(null, '', address);
}

/** Radios that choose which units lead. Both stay on the page; only their emphasis changes. */
class UnitChoice extends HTMLElement {
  connectedCallback(): void {
    const asked = new URLSearchParams(location.search).get('u');
    const kept = remembered();
    if (isUnits(asked)) this.lead(asked);
    else if (isUnits(kept)) this.lead(kept);
    this.addEventListener('change', ({ target }) => {
      if (!(target instanceof HTMLInputElement) || !isUnits(target.value)) return;
      this.lead(target.value);
      remember(target.value);
      writeToAddress(target.value);
    });
    this.setAttribute('ready', '');
  }

  lead(units: Units): void {
    document.documentElement.dataset['units'] = units;
    for (const radio of this.querySelectorAll('input')) radio.checked = radio.value === units;
  }
}

customElements.define('unit-choice', UnitChoice);
