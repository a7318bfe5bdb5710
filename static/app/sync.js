// @ts-check
/**
 * When to talk to the server: at once when there is something to send or a sign of a network, once
 * a minute otherwise,
 * and after a failure again and again with growing pauses. A request is safe to repeat
 * (request.js): the server names
 * what it has on disk, and only that leaves the outbox. The stream (stream.js) says when there is
 * something to fetch.
 * @module
 */
import { effect } from './html.js';
import { engine } from './ask.js';
import { recallDamage } from './damage.js';
import { meta } from './db.js';
import { countWaiting, stampEarlier } from './events.js';
import { apply, reopen, settled } from './follow.js';
import { countParked } from './parking.js';
import { Refused, request } from './request.js';
import { Retry } from './retry.js';
import { nameRevisions } from './revisions.js';
import { eventsCame, fetched, filesCame, helper, net, syncTrouble } from './server.js';
import { startStream } from './stream.js';
import { broadcast, leading, onNews, onOutbox } from './tabs.js';

let busy = false,
  wanted = false;
const requests = new Retry(nudge);

/** Talk to the server as soon as may be. */
export function nudge() {
  wanted = true;
  if (!leading.peek() || busy) return;
  requests.cancel();
  run();
}

async function run() {
  busy = true;
  try {
    do {
      wanted = false;
      await exchange();
    } while (wanted);
    requests.succeeded();
    syncTrouble.value = '';
    requests.after(60_000); // the stream may have died without an error
  } catch (err) {
    net.value = 'off';
    broadcast({ net: 'off' });
    syncTrouble.value = err instanceof Refused ? err.message : '';
    requests.failed();
  } finally {
    busy = false;
    settled().then(() => {
      fetched.value = true;
    });
  }
}

/**
 * How often in a row the server may ask for more with nothing moved: one reset is such an answer.
 */
const IDLE = 3;

/** Requests one after another until there is nothing more to send or fetch. */
async function exchange() {
  for (let idle = 0; idle < IDLE;) {
    const { more, moved } = await request();
    if (!more) return;
    idle = moved ? 0 : idle + 1;
  }
  throw new Refused('the server asks for more and takes nothing: tried again later');
}

/** Start the sync, after the first paint. */
export async function startSync() {
  helper.value = meta.role === 'helper';
  recallDamage();
  await countParked();
  await countWaiting();
  onOutbox(nudge);
  onNews((news) => {
    if (news.net) {
      net.value = news.net;
      fetched.value = true;
    }
    if (news.restamped) reopen();
    else if (news.events?.length) apply(news.events);
    if (news.files) filesCame.value++;
    if (news.events) eventsCame.value++;
    countWaiting();
  });
  addEventListener('online', nudge);
  addEventListener('focus', nudge);
  document.addEventListener('visibilitychange', () => {
    if (!document.hidden) nudge();
  });
  startStream(nudge);
  await stampEarlier();
  effect(() => {
    if (engine.value === 'ready') nameRevisions();
  });
}
