// @ts-check
/**
 * The page by which a phone is let in. It stands alone: nothing of the app runs yet.
 * @module
 */

const form = /** @type {HTMLFormElement} */ (document.getElementById('pair'));
const say = /** @type {HTMLElement} */ (document.getElementById('say'));

form.addEventListener('submit', async (event) => {
  event.preventDefault();
  const code = /** @type {HTMLInputElement} */ (document.getElementById('code'));
  const name = /** @type {HTMLInputElement} */ (document.getElementById('name'));
  const button = /** @type {HTMLButtonElement} */ (form.querySelector('button'));
  if (code.value.replace(/\D/g, '').length !== 8) {
    say.textContent = 'The code has eight digits.';
    code.focus();
    return;
  }
  button.disabled = true;
  say.textContent = 'Asking …';
  try {
    const res = await fetch('/api/pair', {
      method: 'POST',
      cache: 'no-store',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify({ code: code.value, name: name.value }),
    });
    const answer = await res.json().catch(() => ({}));
    if (res.ok) {
      say.textContent = 'This phone is let in.';
      location.replace('/');
      return;
    }
    say.textContent = 'Not let in: ' + (answer.error || 'the server answered ' + res.status) + '.';
  } catch {
    say.textContent = 'The server is not reached. Is the phone on the same network?';
  }
  button.disabled = false;
  code.focus();
});

export {};
