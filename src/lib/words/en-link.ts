import type { LinkWords } from './link.ts';

/** English. */
export const EN_LINK: LinkWords = {
  broken: {
    long: 'it is longer than any link that Gorewright makes',
    newer: 'it was made by a newer Gorewright',
    damaged: 'part of it is missing or was changed on the way',
    large: 'it holds more than any link that Gorewright makes'
  },
  holds: {
    title: 'This link holds a job',
    unnamed: 'a job without a name',
    fittings: (count) => (count === 1 ? '1 fitting' : `${count} fittings`),
    more: (count) => `and ${count} more`,
    site: 'and the site that one of them stands in',
    instead: (name) =>
      `It would take the place of ${name}, which is open now. Undo brings that back until the page is closed; save it as a file to keep it longer.`,
    open: 'Open it',
    saveFirst: 'Save the open job as a file',
    leave: 'Leave it'
  },
  made: {
    ofJob: 'Link to this job',
    ofFitting: (tag) => `Link to ${tag}`,
    link: 'Link',
    copied: 'Copied.',
    notCopied: 'The browser does not let the page copy: copy it from the field.',
    copy: 'Copy',
    holdsAll:
      'All of it is written in the link and kept nowhere else: whoever has the link can open it, and it does not change with the job.',
    over: {
      characters: (has, most) =>
        `The link would be ${has} characters long: more than ${most} are not taken everywhere.`,
      bytes: (has, most) =>
        `The link would hold ${Math.ceil(has / 1024)} kB of figures: no more than ${most / 1024} are read from one.`
    },
    fileInstead: 'A file holds the same.'
  }
};
