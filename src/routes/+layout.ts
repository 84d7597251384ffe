// A static site whose pages draw themselves in the browser: nothing to render on a server.
export const prerender = true;
export const ssr = false;
