import type { Found } from '../answer/search.ts';
import type { SearchOrder, SearchReport } from './search-worker.ts';
import workerAddress from './search-worker.ts?worker&url';
import { startWorker } from './worker.ts';

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
  if (found.more > 0) {
    const rest = document.createElement('li');
    rest.textContent = `and ${found.more} more; add a mold’s name to your words`;
    places.append(rest);
  }
  line.append(places);
  return line;
}

/** What is said of a search. */
function tally(asked: string, found: SearchReport['found']): string {
  if (asked === '') return '';
  if (!found) return 'The search could not be loaded. Everything on this site is listed here.';
  return found.length === 0 ? `Nothing found for “${asked}”.` : `${found.length} found`;
}

/**
 * Searches the whole site by words and by numbers with units. What it looks through is fetched at the first word and read
 * beside the page, which goes on taking letters.
 */
class SiteSearch extends HTMLElement {
  private worker: Worker | undefined;
  private turn = 0;
  private asked = '';

  connectedCallback(): void {
    const input = this.querySelector('input');
    const form = this.querySelector('form');
    if (!input || !form) return;
    form.hidden = false;
    input.value = new URLSearchParams(location.search).get('q') ?? '';
    let timer: ReturnType<typeof setTimeout> | undefined;
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      this.search(input.value);
    });
    input.addEventListener('input', () => {
      clearTimeout(timer);
      timer = setTimeout(() => this.search(input.value), WAIT);
    });
    if (input.value !== '') this.search(input.value);
  }

  private get root(): string {
    return this.dataset['root'] ?? '/';
  }

  private search(query: string): void {
    this.asked = query.trim();
    this.turn++;
    const address = new URL(location.href);
    if (this.asked === '') address.searchParams.delete('q');
    else address.searchParams.set('q', this.asked);
    history.replaceState(null, '', address);
    if (this.asked === '') {
      this.show([]);
      return;
    }
    this.worker ??= this.started();
    const order: SearchOrder = { file: `${this.root}search.json`, query: this.asked, turn: this.turn };
    this.worker.postMessage(order);
  }

  private started(): Worker {
    const worker = startWorker(workerAddress);
    worker.addEventListener('message', ({ data }: MessageEvent<SearchReport>) => {
      if (data.turn === this.turn) this.show(data.found);
    });
    return worker;
  }

  private show(found: SearchReport['found']): void {
    this.querySelector('.questions')?.replaceChildren(...(found ?? []).map((one) => item(one, this.root)));
    const rest = this.querySelector<HTMLElement>('.plain');
    if (rest) rest.hidden = (found?.length ?? 0) > 0;
    const status = this.querySelector('[role=status]');
    if (status) status.textContent = tally(this.asked, found);
  }
}

customElements.define('site-search', SiteSearch);
