// @ts-check
/**
 * Which revisions of a file wait beside its newest one for somebody to choose. The server has the
 * same rule: one that came beside the newest, that nothing was made from and no other one settles.
 * @module
 */

/** @typedef {import('./db.js').Revision} Revision */

/**
 * Note for a file which revisions wait, after its revisions changed.
 * @param {import('./db.js').Transaction} tx on files and names
 * @param {string} name
 */
export async function noteWaiting(tx, name) {
  const names = tx.objectStore('names');
  const entry = await names.get(name);
  if (!entry) return;
  /** @type {Revision[]} */
  const all = await tx.objectStore('files').index('name').getAll(name);
  const beside = all
    .filter(
      (f) =>
        f.beside &&
        f.revision !== entry.revision &&
        !all.some((g) => g !== f && (g.base === f.revision || g.settles?.includes(f.revision))),
    )
    .map((f) => f.revision);
  names.put({ name, revision: entry.revision, ...(beside.length ? { beside } : {}) });
}
