/** What a page asks of its service worker: how much it keeps, to keep everything, to take over from an older version. */
export type Asked = 'held' | 'carry' | 'take-over';

/** Why not everything is kept: no room, no network, or a part that the server does not give. */
export type CarryFault = 'full' | 'unreachable' | 'refused';

/** How many parts of the page are kept, of how many; at last perhaps why no more. */
export type CarryStep = { readonly done: number; readonly of: number } | { readonly fault: CarryFault };
