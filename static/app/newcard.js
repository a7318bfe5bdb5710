// @ts-check
/**
 * A new card: the text to begin from, and the name of its file.
 * @module
 */
/** A card to begin from: it has no problems and shows each kind of line once. */
export const blank = `---
makes: 1 kg
keeps: 3 d chilled
---

# Name of what it makes

One line on what it is and where it goes.

## Formula

- 600 g first item, how it is cut
- 400 g second item
- 8 g salt

## Method

1. Put the **first item** in a pan with the **salt** and colour it gently.
   - hob: 1 ring
   - hands: 10 min
   - until: soft and gold
2. Add the **second item** and leave it to simmer.
   - hob: 1 ring
   - hands: 5 min
   - wait: about 30 min
   - until: 1 kg
`;

/** A file's name from its title. @param {string} title */
export const fileName = (title) =>
  (title
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '') || 'card') + '.md';
