/** Opens the row that an address points into, in browsers that do not do so by themselves. */
function openTarget(): void {
  const target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  for (let fold = target?.closest('details'); fold; fold = fold.parentElement?.closest('details'))
    fold.open = true;
  if (target?.closest('details')) target.scrollIntoView();
}

addEventListener('hashchange', openTarget);
openTarget();
