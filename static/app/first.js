// @ts-check
/*
 * The step the cook was at, painted before anything else is loaded. A phone that was off wakes to words and amounts at
 * once; they can be read while the app itself comes up behind them, and touched when it is there (main.js). A classic
 * script on purpose: a module would wait for the whole page.
 */
(() => {
  const root = document.documentElement;
  for (const name of ['theme', 'hand', 'text']) {
    const value = localStorage.getItem('hobside-' + name);
    if (value) root.dataset[name] = value;
  }
  const kept = JSON.parse(localStorage.getItem('hobside-glimpse') ?? 'null');
  const app = document.getElementById('app');
  if (!app || !kept || (location.hash && location.hash !== kept.hash)) return;
  app.inert = true; // to be read, not yet touched
  app.innerHTML = kept.html; // our own screen as it was drawn, words escaped by the browser that wrote it down
})();
