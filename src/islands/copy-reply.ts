const SHOWN = 2500;

/** The page's own address without what is only for this visit. */
function address(): string {
  const canonical = document.querySelector<HTMLLinkElement>('link[rel=canonical]');
  return canonical?.href ?? `${location.origin}${location.pathname}`;
}

/** Puts text on the clipboard; where a page may not, the text is selected for the reader to copy. */
async function copied(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    const field = document.createElement('textarea');
    field.value = text;
    document.body.append(field);
    field.select();
    const done = document.execCommand('copy');
    field.remove();
    return done;
  }
}

/**
 * A button that copies a reply: its text, the sheet with its revision, and its address. It is made here, since
 * without this script it could do nothing.
 */
class CopyReply extends HTMLElement {
  connectedCallback(): void {
    const button = document.createElement('button');
    button.type = 'button';
    const label = document.createElement('span');
    label.textContent = 'Copy reply';
    const of = document.createElement('span');
    of.className = 'aloud';
    of.textContent = this.dataset['of'] ?? '';
    button.append(label, of);
    const said = document.createElement('span');
    said.className = 'aloud';
    said.setAttribute('role', 'status');
    this.replaceChildren(button, said);
    button.addEventListener('click', () => {
      void copied(this.message()).then((done) => {
        label.textContent = done ? 'Copied' : 'Not copied';
        said.textContent = done ? 'Copied' : 'Your browser did not let this page copy';
        setTimeout(() => {
          label.textContent = 'Copy reply';
          said.textContent = '';
        }, SHOWN);
      });
    });
  }

  /** A message given outright, else the one that stands beside the button. */
  message(): string {
    const given = this.dataset['message'];
    if (given !== undefined) return given;
    const key = this.getAttribute('for') ?? '';
    const text = document.getElementById(key)?.querySelector('.short')?.textContent ?? '';
    const source = this.closest<HTMLElement>('[data-source]')?.dataset['source'] ?? '';
    const lines = [text.trim(), source, `${address()}#${key}`];
    return lines.join('\n').replaceAll('\u00a0', ' ');
  }
}

customElements.define('copy-reply', CopyReply);
