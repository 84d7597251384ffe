/** The page is the same by the name of its file. */
export const reroute = ({ url }: { url: URL }): string => url.pathname.replace(/index\.html$/, '');
