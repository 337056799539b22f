import { searched, searchIndex, type Findable, type Found } from '../answer/search.ts';

const WAIT = 120;

function item(found: Found, root: string): HTMLLIElement {
  const line = document.createElement('li');
  const title = document.createElement('h2');
  title.textContent = found.title;
  line.append(title);
  if (found.places.length === 1 && found.text !== '') {
    const text = document.createElement('p');
    text.textContent = found.text;
    line.append(text);
  }
  const places = document.createElement('ul');
  places.className = 'molds-of';
  for (const { place, path } of found.places) {
    const link = document.createElement('a');
    link.href = `${root}${path}`;
    link.textContent = place;
    const entry = document.createElement('li');
    entry.append(link);
    places.append(entry);
  }
  line.append(places);
  return line;
}

/** Searches the whole site by words and by numbers with units; what it looks through is fetched at the first word. */
class SiteSearch extends HTMLElement {
  private index: Promise<ReturnType<typeof searchIndex>> | undefined;

  connectedCallback(): void {
    const input = this.querySelector('input');
    const form = this.querySelector('form');
    if (!input || !form) return;
    form.hidden = false;
    input.value = new URLSearchParams(location.search).get('q') ?? '';
    let timer: ReturnType<typeof setTimeout> | undefined;
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      void this.show(input.value);
    });
    input.addEventListener('input', () => {
      clearTimeout(timer);
      timer = setTimeout(() => void this.show(input.value), WAIT);
    });
    if (input.value !== '') void this.show(input.value);
  }

  private loaded(): Promise<ReturnType<typeof searchIndex>> {
    this.index ??= fetch(`${this.root}search.json`)
      .then((response) => response.json() as Promise<readonly Findable[]>)
      .then(searchIndex);
    return this.index;
  }

  private get root(): string {
    return this.dataset['root'] ?? '/';
  }

  private async show(query: string): Promise<void> {
    const list = this.querySelector('.questions');
    const status = this.querySelector('[role=status]');
    const rest = this.querySelector<HTMLElement>('.plain');
    if (!list || !status) return;
    const asked = query.trim();
    const found = asked === '' ? [] : searched(await this.loaded(), asked);
    list.replaceChildren(...found.map((one) => item(one, this.root)));
    if (rest) rest.hidden = found.length > 0;
    status.textContent =
      asked === '' ? '' : found.length === 0 ? `Nothing found for “${asked}”.` : `${found.length} found`;
    const address = new URL(location.href);
    if (asked === '') address.searchParams.delete('q');
    else address.searchParams.set('q', asked);
    history.replaceState(null, '', address);
  }
}

customElements.define('site-search', SiteSearch);
