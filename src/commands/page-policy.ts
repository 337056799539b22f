import { metaPolicy } from '../components/head/headers.ts';
import { pageStyles } from './site-facts.ts';

/**
 * A page whose own policy lets the style sheets in it stand, each by its hash, and no others.
 *
 * @param html - a page with the policy as it is printed, before anything is known of its styles
 */
export function policed(html: string): string {
  return html.replace(metaPolicy([]), () => metaPolicy(pageStyles(html)));
}
