import type { OfflineWords } from './offline.ts';

/** English. */
export const EN_OFFLINE: OfflineWords = {
  carry: 'Carry this job',
  help: 'Fetches all of the page, so that it works where there is no network.',
  fetching: (done, of) => `Fetching: ${done} of ${of}`,
  ready: 'Ready without network',
  faults: {
    full: 'The browser has no room left for it. Free some, then try again.',
    unreachable: 'There is no connection. What is fetched already is kept; try again where there is one.',
    refused: 'A part was not found where the page comes from. Load the page anew, then try again.'
  },
  impossible:
    'Only with a network here: the address has to begin with https, and the browser must be allowed to keep data.',
  newVersion: 'A new version is there.',
  loadAnew: 'Save and load it',
  notSaved:
    'It was not loaded: the browser does not keep the job that is open. Save it to a file first, then close the page.'
};
