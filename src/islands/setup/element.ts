import styles from '../../styles/planner.css?url';
import { withStyles } from '../style-sheet.ts';

/** The place of "your set-up" on a sheet: its program and its data are fetched at the press of a button. */
class ShotSetup extends HTMLElement {
  connectedCallback(): void {
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'button';
    button.textContent = 'Try your own set-up';
    button.addEventListener('click', () => {
      button.disabled = true;
      void this.open();
    });
    this.append(button);
  }

  async open(): Promise<void> {
    try {
      const [{ showSetup }, answer] = await Promise.all([
        import('./setup.ts'),
        fetch(this.dataset['data'] ?? ''),
        withStyles(styles),
      ]);
      if (!answer.ok) throw new Error(`${answer.status}`);
      showSetup(this, await answer.json());
      this.querySelector<HTMLElement>('select')?.focus();
    } catch {
      const note = document.createElement('p');
      note.setAttribute('role', 'alert');
      note.textContent =
        'It could not be loaded. The table and the plots on this page answer for the usual set-up.';
      this.replaceChildren(note);
    }
  }
}

customElements.define('shot-setup', ShotSetup);
