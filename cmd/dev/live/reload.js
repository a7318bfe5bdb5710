// @ts-check
// Added to every page by `dev serve`: shows what was saved. A change of style is put in place; any
// other loads the page again.
const saved = new EventSource('/dev/saved');
saved.onmessage = ({ data }) => {
  if (data !== 'style') {
    location.reload();
    return;
  }
  for (const old of /** @type {NodeListOf<HTMLLinkElement>} */ (
    document.querySelectorAll('link[rel="stylesheet"]')
  )) {
    const url = new URL(old.href);
    url.searchParams.set('saved', String(Date.now()));
    const link = /** @type {HTMLLinkElement} */ (old.cloneNode());
    link.href = url.href;
    link.onload = () => old.remove();
    old.after(link);
  }
};
