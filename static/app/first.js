// @ts-check
/*
 * The step the cook was at, painted before anything else is loaded. Its words and amounts can be
 * read while the app itself is loaded, and used when it is there (main.js). A classic script on
 * purpose: a module would wait for the whole page.
 */
(() => {
  const root = document.documentElement;
  const app = /** @type {HTMLElement} */ (document.getElementById('app'));

  // Fifty requests at once delay the first picture and the first tap: they come after it, a few at
  // a time.
  const rest = () => {
    const { content } = /** @type {HTMLTemplateElement} */ (document.getElementById('rest'));
    document.body.append(...[...content.children].slice(0, 3));
    if (content.children.length) setTimeout(rest);
  };
  addEventListener('DOMContentLoaded', () => {
    if (app.inert && !document.hidden) requestAnimationFrame(() => setTimeout(rest));
    else rest();
  });

  // The step is shown but can't be used yet. When a file of the app did not come, or the app has not
  // started for a long time, load the page again, and in the end say so.
  const AGAIN = 'hobside-again';
  const say = () => {
    if (root.dataset.up || document.querySelector('.stuck')) return;
    const p = document.createElement('p'),
      b = document.createElement('button');
    p.className = 'stuck';
    p.setAttribute('role', 'alert');
    p.append('The app did not come up. What you ticked is kept. ', b);
    b.textContent = 'Try again';
    b.onclick = () => {
      sessionStorage.removeItem(AGAIN);
      location.reload();
    };
    document.body.append(p);
  };
  addEventListener(
    'error',
    (e) => {
      if (!(e.target instanceof HTMLScriptElement)) return;
      const tried = Number(sessionStorage.getItem(AGAIN));
      if (tried >= 2) {
        say();
        return;
      }
      sessionStorage.setItem(AGAIN, String(tried + 1));
      // this script stands alone, so it can't use retry.js
      setTimeout(() => location.reload(), 500 * 2 ** tried);
    },
    true,
  );
  setTimeout(say, 20000);

  for (const name of ['theme', 'hand', 'text']) {
    const value = localStorage.getItem('hobside-' + name);
    if (value) root.dataset[name] = value;
  }
  const kept = JSON.parse(localStorage.getItem('hobside-glimpse') ?? 'null');
  if (!kept || (location.hash && location.hash !== kept.hash)) return;
  app.inert = true; // to be read, not yet touched
  // our own screen as it was drawn, words escaped by the browser that wrote it down
  app.innerHTML = kept.html;
})();
