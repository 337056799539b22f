import { find, type Asked } from '../answer/question.ts';
import './copy-reply.ts';

interface Reply {
  readonly key: string;
  readonly text: string;
  readonly address: string;
}

/** Finds answers by a customer's own words, and shows the reply for the chosen mold, ready to copy. */
class AnswerFinder extends HTMLElement {
  private readonly kept = new Map<string, Promise<readonly Reply[]>>();
  /** The mold whose replies stand in the lines. */
  private filled = '';

  connectedCallback(): void {
    const form = this.querySelector('form');
    const mold = this.querySelector('select');
    const words = this.querySelector('input');
    if (!form || !mold || !words) return;
    const asked = new URLSearchParams(location.search);
    const wanted = asked.get('mold');
    if (wanted && [...mold.options].some(({ value }) => value === wanted)) mold.value = wanted;
    words.value = asked.get('q') ?? '';
    form.hidden = false;
    this.setAttribute('ready', '');
    form.addEventListener('submit', (event) => event.preventDefault());
    form.addEventListener('input', () => void this.show(mold.value, words.value, true));
    void this.show(mold.value, words.value, false);
  }

  /** Lines of the page, in the order they are written in. */
  private lines(): Map<string, HTMLElement> {
    return new Map([...this.querySelectorAll<HTMLElement>('.questions > li')].map((line) => [line.id, line]));
  }

  private readonly asked: readonly Asked[] = [...this.querySelectorAll<HTMLElement>('.questions > li')].map(
    (line) => ({
      key: line.id,
      title: line.querySelector('h2')?.textContent ?? '',
      words: (line.dataset['words'] ?? '').split('|'),
    }),
  );

  private async show(mold: string, words: string, write: boolean): Promise<void> {
    const found = find(words, this.asked);
    const lines = this.lines();
    for (const line of lines.values()) line.hidden = true;
    const list = this.querySelector('.questions');
    for (const { key } of found) {
      const line = lines.get(key);
      if (!line) continue;
      line.hidden = false;
      list?.append(line);
    }
    this.tell(words, found.length);
    if (write) this.remember(mold, words);
    const replies = await this.replies(mold);
    if (this.filled === mold) return;
    this.filled = mold;
    for (const { key, text } of replies) {
      const line = lines.get(key);
      if (line) this.fill(line, text);
    }
  }

  private tell(words: string, count: number): void {
    const status = this.querySelector('.found');
    if (!status) return;
    if (words.trim() === '') status.textContent = '';
    else if (count === 0) status.textContent = 'Nothing answers to that. Try one word, such as cold or hook.';
    else status.textContent = count === 1 ? '1 answer' : `${count} answers, the nearest first`;
  }

  private remember(mold: string, words: string): void {
    const address = new URL(location.href);
    address.searchParams.set('mold', mold);
    if (words === '') address.searchParams.delete('q');
    else address.searchParams.set('q', words);
    history.replaceState(null, '', address);
  }

  private replies(mold: string): Promise<readonly Reply[]> {
    const known = this.kept.get(mold);
    if (known) return known;
    const coming = fetch(`${this.dataset['molds'] ?? ''}${mold}/answers.json`)
      .then((response) => response.json() as Promise<{ replies: readonly Reply[] }>)
      .then(({ replies }) => replies);
    this.kept.set(mold, coming);
    return coming;
  }

  private fill(line: HTMLElement, text: string): void {
    const box = line.querySelector<HTMLElement>('.reply');
    if (!box) return;
    const [short = '', source = '', address = ''] = text.split('\n');
    const paragraph = document.createElement('p');
    paragraph.textContent = short;
    const link = document.createElement('a');
    link.href = `${this.dataset['molds'] ?? ''}${address.split('/molds/')[1] ?? ''}`;
    link.textContent = source;
    const copy = document.createElement('copy-reply');
    copy.dataset['message'] = text;
    copy.dataset['of'] = line.querySelector('h2')?.textContent ?? '';
    box.replaceChildren(paragraph, link, copy);
    box.hidden = false;
    line.classList.add('answered');
  }
}

customElements.define('answer-finder', AnswerFinder);
