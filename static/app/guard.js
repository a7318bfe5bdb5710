// @ts-check
/**
 * An error in the drawing of one screen or window must not take the page with it: words say what
 * went wrong, and there is a way home.
 * @module
 */
import { Component, html } from './html.js';
import { route, to } from './router.js';
import { folded } from './state.js';

/** @typedef {import('./router.js').Route} Route */

/**
 * Draws its children; where they throw, what went wrong, until the cook goes elsewhere or the engine
 * answers anew.
 */
class Guard extends Component {
  /** @type {{ wrong: Error | null, at: Route | null, answer: number }} */
  state = { wrong: null, at: null, answer: 0 };

  /** @param {unknown} err */
  componentDidCatch(err) {
    console.error(err);
    const wrong = err instanceof Error ? err : new Error(String(err));
    this.setState({ wrong, at: route.peek(), answer: folded.peek() });
  }

  render() {
    const { wrong, at, answer } = this.state;
    if (!wrong || at !== route.value || answer !== folded.value) return this.props.children;
    const again = () => this.setState({ wrong: null });
    return this.instead(wrong, again);
  }

  /**
   * What is drawn instead.
   * @param {Error} _wrong
   * @param {() => void} _again draws the children once more
   * @returns {any}
   */
  instead(_wrong, _again) {
    return null;
  }
}

/** A guard around a screen. */
export class ScreenGuard extends Guard {
  /** @param {Error} wrong @param {() => void} again */
  instead(wrong, again) {
    const { id } = route.value;
    return html`<main id="broken" class="narrow">
      <h1>This screen can’t be shown.</h1>
      <p class="trouble" role="alert">${wrong.message}</p>
      <p>What you ticked and wrote down is kept. The other screens work.</p>
      <p class="tools">
        <a class="button main" id="way-home" href="#/">To the dinners</a>
        ${id ? html`<a class="button" href=${to.dinner(id)}>To the dinner</a>` : null}
        <button type="button" id="draw-again" onClick=${again}>Try again</button>
      </p>
    </main>`;
  }
}

/** A guard around a window, or another part that lies over the screen. */
export class PartGuard extends Guard {
  /** @param {Error} wrong @param {() => void} again */
  instead(wrong, again) {
    return html`<p class="stuck above" role="alert">
      A window can’t be shown: ${wrong.message}.
      <button type="button" onClick=${again}>Try again</button>
    </p>`;
  }
}
