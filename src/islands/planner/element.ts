import styles from '../../styles/planner.css?url';
import { withStyles } from '../style-sheet.ts';

/**
 * The planner's place on a page. Its program and its data are fetched when it is opened: at once where it is the page's
 * own subject or the address carries a plan, else at the press of a button.
 */
class ShotPlanner extends HTMLElement {
  connectedCallback(): void {
    const carried = new URLSearchParams(location.search).has('m');
    if (this.dataset['open'] !== undefined || carried) void this.open();
    else this.offer();
  }

  offer(): void {
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'button';
    button.textContent = 'Plan a session';
    button.addEventListener('click', () => {
      button.remove();
      void this.open(true);
    });
    this.append(button);
  }

  async open(focus = false): Promise<void> {
    try {
      const [{ showPlanner }, answer] = await Promise.all([
        import('./planner.ts'),
        fetch(this.dataset['data'] ?? ''),
        withStyles(styles),
      ]);
      if (!answer.ok) throw new Error(`${answer.status}`);
      showPlanner(this, await answer.json());
      if (focus) this.querySelector<HTMLElement>('input')?.focus();
    } catch {
      const note = document.createElement('p');
      note.setAttribute('role', 'alert');
      note.textContent =
        'The planner could not be loaded. The tables on this page answer for round numbers of baits.';
      this.replaceChildren(note);
    }
  }
}

customElements.define('shot-planner', ShotPlanner);
